#include "app/line_reader.h"

#include <fcntl.h>
#include <fmt/format.h>
#include <unistd.h>

#include <array>
#include <cerrno>
#include <cstring>

#include "app/files.h"
#include "base/error.h"

namespace tub::app {
namespace {

constexpr std::size_t block_size = 1U << 16U;

[[noreturn]] void throw_machine(const char* what, const std::string& where) {
  throw Error({fmt::format("{}: {}", what, std::strerror(errno)),
               where,
               {},
               "check its name and that you may read it",
               Fault::machine});
}

}  // namespace

LineReader::LineReader(const std::string& path)
    : shown_(name_of_input(path)),
      descriptor_(path == "-" ? STDIN_FILENO : ::open(path.c_str(), O_RDONLY | O_CLOEXEC)) {
  if (descriptor_ < 0) throw_machine("the file cannot be opened", shown_);
}

LineReader::~LineReader() {
  if (descriptor_ != STDIN_FILENO) ::close(descriptor_);
}

std::optional<std::string> LineReader::next() {
  std::size_t end = block_.find('\n', from_);
  while (end == std::string::npos && fill()) end = block_.find('\n', from_);
  if (end == std::string::npos && from_ == block_.size()) return std::nullopt;
  std::string line = block_.substr(from_, end == std::string::npos ? end : end - from_);
  from_ = end == std::string::npos ? block_.size() : end + 1;
  if (!line.empty() && line.back() == '\r') line.pop_back();
  return line;
}

bool LineReader::fill() {
  if (has_ended_) return false;
  block_.erase(0, from_);
  from_ = 0;
  if (block_.size() > largest_text) {
    throw Error({fmt::format("a line is longer than {} KiB", largest_text >> 10U),
                 shown_,
                 {},
                 "write one water a line"});
  }
  std::array<char, block_size> bytes{};
  ssize_t count = ::read(descriptor_, bytes.data(), bytes.size());
  while (count < 0 && errno == EINTR) count = ::read(descriptor_, bytes.data(), bytes.size());
  if (count < 0) throw_machine("the file cannot be read", shown_);
  has_ended_ = count == 0;
  block_.append(bytes.data(), static_cast<std::size_t>(count));
  return !has_ended_;
}

}  // namespace tub::app
