#include "app/draft.h"

#include <dirent.h>
#include <fcntl.h>
#include <fmt/format.h>
#include <sys/file.h>
#include <sys/random.h>
#include <sys/stat.h>
#include <unistd.h>

#include <cerrno>
#include <cstdint>
#include <cstdlib>
#include <cstring>
#include <memory>

#include "app/files.h"

namespace tub::app {
namespace {

// A draft is named ".tubwright-0123456789abcdef.draft": short, so that any name of the output will
// do, and like nothing that a person would write.
constexpr std::string_view draft_head = ".tubwright-";
constexpr std::string_view tail = ".draft";
constexpr std::size_t digits = 16;

std::string new_name() {
  std::uint64_t number = 0;
  // Never short for so few bytes; if the system has no randomness, the name is taken or it is not.
  static_cast<void>(::getrandom(&number, sizeof number, 0));
  return fmt::format("{}{:0{}x}{}", draft_head, number, digits, tail);
}

bool is_draft_name(std::string_view name) {
  if (name.size() != draft_head.size() + digits + tail.size()) return false;
  if (!name.starts_with(draft_head) || !name.ends_with(tail)) return false;
  const std::string_view middle = name.substr(draft_head.size(), digits);
  return middle.find_first_not_of("0123456789abcdef") == std::string_view::npos;
}

// Whoever writes a draft holds a lock on it; a kill lets go of it.
bool lock(int descriptor) { return ::flock(descriptor, LOCK_EX | LOCK_NB) == 0; }

void remove_if_left_behind(const std::string& path) {
  constexpr int how = O_CLOEXEC | O_NOFOLLOW | O_NONBLOCK;
  int descriptor =
      ::open(path.c_str(), O_RDWR | how);  // some file systems lock only what is written
  if (descriptor < 0) descriptor = ::open(path.c_str(), O_RDONLY | how);
  if (descriptor < 0) return;
  struct stat status {};
  const bool is_ours =
      ::fstat(descriptor, &status) == 0 && S_ISREG(status.st_mode) && status.st_uid == ::geteuid();
  if (is_ours && lock(descriptor)) ::unlink(path.c_str());
  ::close(descriptor);
}

// The place that a link points to, so that the link itself stays.
std::string resolved(const std::string& path) {
  const std::unique_ptr<char, decltype(&std::free)> real(::realpath(path.c_str(), nullptr),
                                                         &std::free);
  return real ? std::string(real.get()) : path;
}

constexpr int most_tries = 100;  // of names, or of drafts that another run took for left behind

}  // namespace

Draft::Draft(const std::string& path, DraftName name) : place_(resolved(path)), shown_(path) {
  const std::size_t slash = place_.rfind('/');
  folder_ = slash == std::string::npos ? "" : place_.substr(0, slash + 1);
  open(name);
}

// What is opened is discarded by the destructor if it cannot be filled.
Draft::Draft(const std::string& path, std::string_view bytes, DraftName name) : Draft(path, name) {
  keep_old_status();
  write(bytes);
}

Draft::~Draft() { discard(); }

void Draft::discard() {
  if (!name_.empty()) ::unlink((folder_ + name_).c_str());
  if (descriptor_ >= 0) ::close(descriptor_);
  name_.clear();
  descriptor_ = -1;
}

void Draft::open(DraftName name) {
  if (name == DraftName::none) {
    const char* const folder = folder_.empty() ? "." : folder_.c_str();
    descriptor_ = ::open(folder, O_TMPFILE | O_WRONLY | O_CLOEXEC, 0666);
    // Locked before it has a name, so that nobody takes it for left behind.
    if (descriptor_ >= 0) static_cast<void>(lock(descriptor_));
  }
  for (int i = 0; descriptor_ < 0 && i < most_tries && open_named(); ++i) {
  }
  if (descriptor_ < 0) {
    throw_system("the output cannot be opened", shown_, "name another place with --out");
  }
}

// True if it is worth trying again where it did not open.
bool Draft::open_named() {
  const std::string name = new_name();
  const std::string path = folder_ + name;
  const int descriptor = ::open(path.c_str(), O_WRONLY | O_CREAT | O_EXCL | O_CLOEXEC, 0666);
  if (descriptor < 0) return errno == EEXIST;
  // Another run may take it for left behind before it is locked.
  const bool is_taken = !lock(descriptor) && errno == EWOULDBLOCK;
  struct stat status {};
  const bool is_kept = !is_taken && ::fstat(descriptor, &status) == 0 && status.st_nlink > 0;
  if (is_kept) {
    descriptor_ = descriptor;
    name_ = name;
  } else {
    ::close(descriptor);
    errno = EEXIST;
  }
  return true;
}

void Draft::keep_old_status() {
  struct stat old {};
  struct stat own {};
  if (::stat(place_.c_str(), &old) != 0 || ::fstat(descriptor_, &own) != 0) return;
  const bool is_anothers = old.st_uid != own.st_uid || old.st_gid != own.st_gid;
  if (is_anothers && ::fchown(descriptor_, old.st_uid, old.st_gid) != 0) {
    warn("its owner and group", errno);
  }
  constexpr mode_t permissions = 07777;
  if (::fchmod(descriptor_, old.st_mode & permissions) != 0) warn("its permissions", errno);
}

void Draft::warn(std::string_view what, int reason) {
  warnings_.push_back({fmt::format("the file was replaced, but {} could not be kept: {}", what,
                                   std::strerror(reason)),
                       shown_,
                       {},
                       "set them again"});
}

void Draft::write(std::string_view bytes) {
  if (write_all(descriptor_, bytes) && ::fsync(descriptor_) == 0) return;
  throw_system("the output cannot be written", shown_, "make room, or name another place");
}

// Gives a nameless draft its name. True if it has one.
bool Draft::give_name() {
  const std::string open_file = fmt::format("/proc/self/fd/{}", descriptor_);
  for (int i = 0; name_.empty() && i < most_tries; ++i) {
    const std::string name = new_name();
    const std::string path = folder_ + name;
    if (::linkat(AT_FDCWD, open_file.c_str(), AT_FDCWD, path.c_str(), AT_SYMLINK_FOLLOW) == 0) {
      name_ = name;
    } else if (errno != EEXIST) {
      return false;
    }
  }
  return !name_.empty();
}

void Draft::move_into_place() {
  if (!give_name() || ::rename((folder_ + name_).c_str(), place_.c_str()) != 0) {
    throw_system("the output cannot be put in its place", shown_, "name another place with --out");
  }
  name_.clear();
}

void remove_left_drafts(const std::string& folder) {
  const auto close = [](DIR* entries) { ::closedir(entries); };
  const std::unique_ptr<DIR, decltype(close)> entries(
      ::opendir(folder.empty() ? "." : folder.c_str()), close);
  if (!entries) return;
  while (const dirent* const entry = ::readdir(entries.get())) {
    if (is_draft_name(entry->d_name)) remove_if_left_behind(folder + entry->d_name);
  }
}

}  // namespace tub::app
