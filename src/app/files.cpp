#include "app/files.h"

#include <fcntl.h>
#include <fmt/format.h>
#include <sys/stat.h>
#include <unistd.h>

#include <cerrno>
#include <cstdlib>
#include <cstring>
#include <memory>
#include <optional>
#include <vector>

#include "base/error.h"

namespace tub {
namespace {

[[noreturn]] void throw_system(std::string_view what, const std::string& path, std::string help) {
  const int reason = errno;
  throw Error({fmt::format("{}: {}", what, std::strerror(reason)),
               path,
               {},
               std::move(help),
               Fault::machine});
}

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

bool write_all(int descriptor, std::string_view bytes) {
  while (!bytes.empty()) {
    const ssize_t written = ::write(descriptor, bytes.data(), bytes.size());
    if (written < 0 && errno == EINTR) continue;
    if (written < 0) return false;
    bytes.remove_prefix(static_cast<std::size_t>(written));
  }
  return true;
}

// The place that a link points to, so that the link itself stays.
std::string resolved(const std::string& path) {
  const std::unique_ptr<char, decltype(&std::free)> real(::realpath(path.c_str(), nullptr),
                                                         &std::free);
  return real ? std::string(real.get()) : path;
}

std::optional<struct stat> status_of(const std::string& path) {
  struct stat status {};
  if (::stat(path.c_str(), &status) != 0) return std::nullopt;
  return status;
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

// A file written beside its place; removed at the end unless it was moved there.
class Draft {
 public:
  explicit Draft(const OutputFile& file) : place_(resolved(file.path)), shown_(file.path) {
    const std::size_t slash = place_.rfind('/');
    const std::size_t name = slash == std::string::npos ? 0 : slash + 1;
    draft_ = fmt::format("{}.{}.{}", place_.substr(0, name), place_.substr(name), ::getpid());
    write(file.bytes);
  }
  Draft(const Draft&) = delete;
  Draft& operator=(const Draft&) = delete;
  ~Draft() {
    if (is_open_) ::unlink(draft_.c_str());
  }

  void move_into_place() {
    if (::rename(draft_.c_str(), place_.c_str()) != 0) {
      throw_system("the output cannot be put in its place", shown_,
                   "name another place with --out");
    }
    is_open_ = false;
  }

 private:
  void write(std::string_view bytes) {
    const auto before = status_of(place_);
    const mode_t mode = before ? before->st_mode & 0777U : 0666U;
    Descriptor target(::open(draft_.c_str(), O_WRONLY | O_CREAT | O_EXCL | O_CLOEXEC, mode));
    if (target.number() < 0) {
      throw_system("the output cannot be opened", shown_, "name another place with --out");
    }
    is_open_ = true;
    const bool is_whole =
        write_all(target.number(), bytes) && ::fsync(target.number()) == 0 && target.close();
    if (is_whole) return;
    const int reason = errno;
    ::unlink(draft_.c_str());
    errno = reason;
    throw_system("the output cannot be written", shown_, "make room, or name another place");
  }

  std::string place_;
  std::string shown_;
  std::string draft_;
  bool is_open_ = false;
};

bool goes_straight(const OutputFile& file) {
  const auto status = status_of(file.path);
  return status && !S_ISREG(status->st_mode);
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
  throw Error({fmt::format("the file is larger than {} KiB", most >> 10U),
               shown,
               {},
               "give a smaller file"});
}

void write_files(std::span<const OutputFile> files) {
  std::vector<std::unique_ptr<Draft>> drafts;
  for (const OutputFile& file : files) {
    if (file.path == "-") {
      write_standard_output(file.bytes);
    } else if (goes_straight(file)) {
      write_straight(file);
    } else {
      drafts.push_back(std::make_unique<Draft>(file));
    }
  }
  for (const auto& draft : drafts) draft->move_into_place();
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

}  // namespace tub
