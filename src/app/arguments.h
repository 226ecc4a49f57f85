// What was typed, read by the command table.
#pragma once

#include <map>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "app/command_table.h"
#include "base/error.h"

namespace tub::app {

struct Arguments {
  const Command* command = nullptr;  ///< null: help or version of the whole program was asked for
  std::optional<std::string> operand;
  std::map<std::string, std::vector<std::string>, std::less<>> options;

  bool has(std::string_view option) const { return options.find(option) != options.end(); }
  /// The value of an option that was given; nothing if it was not.
  std::optional<std::string> value(std::string_view option) const;
  /// All values of a repeated option, in order.
  std::vector<std::string> values(std::string_view option) const;
};

/// Reads the words after the program's name.
///
/// Throws: Error with every fault found (Fault::command_line), nearest known names included
Arguments parse_arguments(std::span<const std::string> words);

/// One fault of the command line.
Diagnostic command_line_fault(std::string message, std::string help);

}  // namespace tub::app
