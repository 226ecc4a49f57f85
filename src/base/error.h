// One report type, one exception, one way to pass warnings.
#pragma once

#include <cstddef>
#include <exception>
#include <functional>
#include <map>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "base/modules.h"

namespace tub {

/// Whose fault a problem is; its value is the program's exit status.
enum class Fault { job = 1, command_line = 2, machine = 3 };

/// One problem, as fields; `to_text` builds what a terminal shows.
struct Diagnostic {
  std::string message;             ///< one sentence, lower case, with the value found
  std::string where;               ///< file and JSON pointer; may be empty
  std::vector<std::string> trace;  ///< what was being done, innermost first
  std::string help;                ///< one action; may be empty
  Fault fault = Fault::job;
  std::string about{};           ///< the printed text that does not fit its place; empty: no text
  std::size_t more_like_it = 0;  ///< found as well, and only counted

  friend bool operator==(const Diagnostic&, const Diagnostic&) = default;
};

/// "error: …", then indented where, while and help lines and how many more, each ended by a
/// newline. What a terminal would obey or hide is shown by its code point (`visible`), whoever
/// wrote it.
std::string to_text(const Diagnostic& diagnostic, std::string_view severity = "error");

/// One or more problems that keep a stage from giving its result.
class Error : public std::exception {
 public:
  explicit Error(Diagnostic diagnostic);
  /// REQUIRES: at least one diagnostic.
  explicit Error(std::vector<Diagnostic> diagnostics);

  const std::vector<Diagnostic>& diagnostics() const { return diagnostics_; }
  /// The highest fault of all diagnostics.
  Fault fault() const;
  /// Adds what was being done to every diagnostic's trace.
  Error& within(const std::string& step);
  const char* what() const noexcept override { return text_.c_str(); }

 private:
  std::vector<Diagnostic> diagnostics_;
  std::string text_;
};

/// Problems found so far; input is checked whole, then thrown once.
///
/// Of each kind, ten are kept; how many more there were, the last of them says. Problems are of one
/// kind when their messages are the same but for what they quote and count.
class Problems {
 public:
  void add(Diagnostic diagnostic);
  /// False if ten of that message's kind are there: another would only be counted.
  bool has_room_for(std::string_view message) const;
  bool empty() const { return found_.empty(); }
  const std::vector<Diagnostic>& found() const { return found_; }
  /// Throws: Error with everything found, if anything was.
  void throw_if_any() const;

 private:
  struct Kind {
    std::size_t kept = 0;
    std::size_t last = 0;  // of those kept, in found_
  };

  std::vector<Diagnostic> found_;
  std::map<std::string, Kind, std::less<>> kinds_;
};

/// A result and the warnings that came with it.
template <class T>
struct Outcome {
  T value;
  std::vector<Diagnostic> warnings;
};

}  // namespace tub
