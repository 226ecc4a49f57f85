// Files that are there whole or not at all, on file systems of both kinds.
#include "app/draft.h"

#include <catch2/catch.hpp>
#include <csignal>
#include <cstdlib>
#include <filesystem>
#include <random>
#include <set>

#include <sys/wait.h>
#include <unistd.h>

#include "project_text.h"

using namespace tub;
using namespace tub::app;

namespace {

namespace fs = std::filesystem;

// A new folder, removed at the end.
class Folder {
 public:
  Folder() {
    std::string name = (fs::temp_directory_path() / "tub-draft-XXXXXX").string();
    REQUIRE(::mkdtemp(name.data()) != nullptr);
    path_ = name;
  }
  Folder(const Folder&) = delete;
  Folder& operator=(const Folder&) = delete;
  ~Folder() { fs::remove_all(path_); }

  std::string file(const std::string& name) const { return (path_ / name).string(); }
  std::string prefix() const { return path_.string() + "/"; }
  std::set<std::string> names() const {
    std::set<std::string> result;
    for (const auto& entry : fs::directory_iterator(path_)) {
      result.insert(entry.path().filename().string());
    }
    return result;
  }

 private:
  fs::path path_;
};

/// Runs a child that does as it is told until it is killed; it never returns.
template <class Do>
pid_t child_that(Do what) {
  const pid_t child = ::fork();
  if (child != 0) return child;
  try {
    what();
  } catch (...) {
  }
  ::_exit(1);
}

void kill_and_wait(pid_t child) {
  ::kill(child, SIGKILL);
  int status = 0;
  REQUIRE(::waitpid(child, &status, 0) == child);
  REQUIRE(WIFSIGNALED(status));
}

constexpr DraftName both_names[] = {DraftName::none, DraftName::from_the_start};

}  // namespace

TEST_CASE("a kill at any moment of a hundred leaves a whole file and nothing that stays") {
  for (const DraftName name : both_names) {
    const Folder folder;
    const std::string path = folder.file("card.pdf");
    const std::string old_bytes(300000, 'o');
    const std::string new_bytes(200000, 'n');
    Draft(path, old_bytes, name).move_into_place();
    std::mt19937 random(7);  // the order of moments is the same every time
    for (int i = 0; i < 100; ++i) {
      const pid_t child = child_that([&] {
        for (bool is_old = false;; is_old = !is_old) {
          Draft(path, is_old ? old_bytes : new_bytes, name).move_into_place();
        }
      });
      ::usleep(static_cast<useconds_t>(random() % 20000));
      kill_and_wait(child);
      const std::string found = project_text(path);
      CHECK((found == old_bytes || found == new_bytes));
    }
    remove_left_drafts(folder.prefix());
    CHECK(folder.names() == std::set<std::string>{"card.pdf"});
  }
}

TEST_CASE("what is written without a name leaves no trace, with one a trace that is removed") {
  for (const DraftName name : both_names) {
    const Folder folder;
    int ready[2];
    REQUIRE(::pipe(ready) == 0);
    const pid_t child = child_that([&] {
      const Draft draft(folder.file("card.pdf"), "new", name);
      static_cast<void>(::write(ready[1], "r", 1));
      ::pause();
    });
    char byte = 0;
    REQUIRE(::read(ready[0], &byte, 1) == 1);
    const bool has_name = name == DraftName::from_the_start;
    CHECK(folder.names().size() == (has_name ? 1 : 0));
    remove_left_drafts(folder.prefix());
    // While it is being written, nobody takes it away.
    CHECK(folder.names().size() == (has_name ? 1 : 0));
    kill_and_wait(child);
    CHECK(folder.names().size() == (has_name ? 1 : 0));
    remove_left_drafts(folder.prefix());
    CHECK(folder.names().empty());
    ::close(ready[0]);
    ::close(ready[1]);
  }
}

TEST_CASE("two runs that write one file both come to their end") {
  for (const DraftName name : both_names) {
    const Folder folder;
    const std::string path = folder.file("card.pdf");
    std::vector<pid_t> children;
    for (const char letter : {'a', 'b', 'c'}) {
      children.push_back(child_that([&] {
        for (int i = 0; i < 50; ++i) {
          remove_left_drafts(folder.prefix());
          Draft(path, std::string(50000, letter), name).move_into_place();
        }
        ::_exit(0);
      }));
    }
    for (const pid_t child : children) {
      int status = 1;
      REQUIRE(::waitpid(child, &status, 0) == child);
      CHECK(WIFEXITED(status));
      CHECK(WEXITSTATUS(status) == 0);
    }
    const std::string found = project_text(path);
    CHECK(found == std::string(50000, found.at(0)));
    CHECK(folder.names() == std::set<std::string>{"card.pdf"});
  }
}

TEST_CASE("a draft that is given up leaves the old file as it was") {
  for (const DraftName name : both_names) {
    const Folder folder;
    const std::string path = folder.file("card.pdf");
    Draft(path, "old", name).move_into_place();
    { const Draft draft(path, "new", name); }
    CHECK(project_text(path) == "old");
    CHECK(folder.names() == std::set<std::string>{"card.pdf"});
  }
}
