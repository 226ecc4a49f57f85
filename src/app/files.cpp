#include "app/files.h"

#include <fcntl.h>
#include <fmt/format.h>
#include <sys/resource.h>
#include <sys/stat.h>
#include <unistd.h>

#include <cerrno>
#include <cstring>
#include <memory>
#include <optional>
#include <set>
#include <vector>

#include "app/draft.h"
#include "base/error.h"
#include "base/text.h"

namespace tub::app {
namespace {

// An open file descriptor, closed at the end unless it is a standard one.
class Descriptor {
 public:
  explicit Descriptor(int number) : number_(number) {}
  Descriptor(const Descriptor&) = delete;
  Descriptor& operator=(const Descriptor&) = delete;
  ~Descriptor() { close(); }

  int number() const { return number_; }
  /// False, with errno set, if the system could not keep what was written.
  bool close() {
    const int number = number_;
    number_ = -1;
    return number <= STDERR_FILENO || ::close(number) == 0;
  }

 private:
  int number_;
};

std::optional<struct stat> status_of(const std::string& path) {
  struct stat status {};
  if (::stat(path.c_str(), &status) != 0) return std::nullopt;
  return status;
}

std::optional<struct stat> status_of(int descriptor) {
  struct stat status {};
  if (::fstat(descriptor, &status) != 0) return std::nullopt;
  return status;
}

/// A pipe has no size, and is read no further than it takes to know that it is too long.
[[noreturn]] void throw_too_large(const std::string& shown,
                                  const std::optional<struct stat>& status, std::size_t most) {
  const bool has_size = status && S_ISREG(status->st_mode);
  const std::string found = has_size
                                ? in_thousands(static_cast<std::size_t>(status->st_size)) + " bytes"
                                : "more than that";
  throw Error(
      {fmt::format("the file holds {}, and at most {} bytes are read", found, in_thousands(most)),
       shown,
       {},
       "give a smaller file"});
}

void write_straight(const OutputFile& file) {
  Descriptor target(::open(file.path.c_str(), O_WRONLY | O_CLOEXEC));
  if (target.number() < 0) {
    throw_system("the output cannot be opened", file.path, "name another place with --out");
  }
  if (!write_all(target.number(), file.bytes) || !target.close()) {
    throw_system("the output cannot be written", file.path, "make room, or name another place");
  }
}

bool goes_straight(const OutputFile& file) {
  const auto status = status_of(file.path);
  return status && !S_ISREG(status->st_mode);
}

// Every draft is open until all are whole.
void allow_open_files() {
  rlimit limit{};
  if (::getrlimit(RLIMIT_NOFILE, &limit) != 0) return;
  limit.rlim_cur = limit.rlim_max;
  // If it cannot be, opening the file that is too many says so.
  static_cast<void>(::setrlimit(RLIMIT_NOFILE, &limit));
}

}  // namespace

void keep_standard_streams() {
  for (int stream = STDIN_FILENO; stream <= STDERR_FILENO; ++stream) {
    // Opens at the lowest number that is free: this one.
    if (::fcntl(stream, F_GETFD) == -1) static_cast<void>(::open("/dev/null", O_RDONLY));
  }
}

std::string read_file(const std::string& path, std::size_t most) {
  const bool is_standard = path == "-";
  Descriptor source(is_standard ? STDIN_FILENO : ::open(path.c_str(), O_RDONLY | O_CLOEXEC));
  const std::string shown = name_of_input(path);
  if (source.number() < 0) {
    throw_system("the file cannot be opened", shown, "check its name and that you may read it");
  }
  std::string bytes;
  std::vector<char> block(1U << 16U);
  while (bytes.size() <= most) {
    const ssize_t count = ::read(source.number(), block.data(), block.size());
    if (count < 0 && errno == EINTR) continue;
    if (count < 0) throw_system("the file cannot be read", shown, "check that it is a file");
    if (count == 0) return bytes;
    bytes.append(block.data(), static_cast<std::size_t>(count));
  }
  throw_too_large(shown, status_of(source.number()), most);
}

std::vector<Diagnostic> write_files(std::span<const OutputFile> files) {
  std::vector<std::unique_ptr<Draft>> drafts;
  std::set<std::string> swept;
  allow_open_files();
  for (const OutputFile& file : files) {
    if (file.path == "-") {
      write_standard_output(file.bytes);
    } else if (goes_straight(file)) {
      write_straight(file);
    } else {
      drafts.push_back(std::make_unique<Draft>(file.path, file.bytes));
      const std::string& folder = drafts.back()->folder();
      if (swept.insert(folder).second) remove_left_drafts(folder);
    }
  }
  std::vector<Diagnostic> warnings;
  for (const auto& draft : drafts) {
    draft->move_into_place();
    warnings.insert(warnings.end(), draft->warnings().begin(), draft->warnings().end());
  }
  return warnings;
}

bool is_regular_file(const std::string& path) {
  const auto status = status_of(path);
  return status && S_ISREG(status->st_mode);
}

bool is_same_file(const std::string& one, const std::string& other) {
  const auto first = status_of(one);
  const auto second = status_of(other);
  return first && second && first->st_dev == second->st_dev && first->st_ino == second->st_ino;
}

bool write_all(int descriptor, std::string_view bytes) {
  while (!bytes.empty()) {
    const ssize_t written = ::write(descriptor, bytes.data(), bytes.size());
    if (written < 0 && errno == EINTR) continue;
    if (written < 0) return false;
    bytes.remove_prefix(static_cast<std::size_t>(written));
  }
  return true;
}

void throw_system(std::string_view what, const std::string& path, std::string help) {
  const int reason = errno;
  throw Error({fmt::format("{}: {}", what, std::strerror(reason)),
               path,
               {},
               std::move(help),
               Fault::machine});
}

void write_standard_output(std::string_view bytes) {
  if (write_all(STDOUT_FILENO, bytes)) return;
  throw_system("standard output cannot be written", "standard output",
               "make room, or send it elsewhere");
}

void write_standard_error(std::string_view bytes) {
  [[maybe_unused]] const bool is_written = write_all(STDERR_FILENO, bytes);
}

std::string name_of_input(const std::string& path) { return path == "-" ? "standard input" : path; }

}  // namespace tub::app
