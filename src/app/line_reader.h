// Lines of a file or of standard input, one at a time, in constant memory.
#pragma once

#include <optional>
#include <string>

namespace tub::app {

class LineReader {
 public:
  /// path:   "-" is standard input
  /// Throws: Error (Fault::machine) if it cannot be opened
  explicit LineReader(const std::string& path);
  LineReader(const LineReader&) = delete;
  LineReader& operator=(const LineReader&) = delete;
  ~LineReader();

  /// The next line without its end; nothing after the last.
  ///
  /// Throws: Error (Fault::machine) if it cannot be read; Error (Fault::job) if a line is longer
  ///         than 4 MiB
  std::optional<std::string> next();

  /// True if the next line can be had without waiting for more input.
  bool has_line_ready() const { return block_.find('\n', from_) != std::string::npos; }

 private:
  bool fill();

  std::string shown_;
  int descriptor_;
  std::string block_;
  std::size_t from_ = 0;
  bool has_ended_ = false;
};

}  // namespace tub::app
