#include "app/help.h"

#include <fmt/format.h>

#include <algorithm>

namespace tub::app {
namespace {

std::string usage_of(const CommandOption& option) {
  std::string text(option.name);
  if (!option.is_flag()) text += fmt::format(" {}", option.value_name);
  return text;
}

std::string usage_of(const Command& command) {
  std::string text = fmt::format("tubwright {}", command.name);
  const CommandOperand& operand = command.operand;
  if (!operand.name.empty()) {
    text +=
        operand.is_required ? fmt::format(" {}", operand.name) : fmt::format(" [{}]", operand.name);
  }
  for (const CommandOption& option : command.options) {
    if (option.name == "--help") continue;
    const std::string use = usage_of(option);
    text += option.is_required ? " " + use : fmt::format(" [{}]", use);
    if (option.repeats) text += "…";
  }
  return text;
}

// Breaks a usage line at blanks between options, with the rest set in.
std::string folded(const std::string& usage) {
  constexpr std::size_t widest = 78;
  std::string text;
  std::size_t column = 0;
  std::size_t from = 0;
  while (from < usage.size()) {
    std::size_t to = usage.find(" [", from + 1);
    if (to == std::string::npos) to = usage.size();
    if (column > 0 && column + (to - from) > widest) {
      text += "\n       ";
      column = 7;
    }
    text += usage.substr(from, to - from);
    column += to - from;
    from = to;
  }
  return text;
}

std::string row(std::string_view left, std::string_view right, std::size_t width) {
  return fmt::format("  {:<{}}  {}\n", left, width, right);
}

std::size_t option_width(const Command& command) {
  std::size_t width = command.operand.name.size();
  for (const CommandOption& option : command.options) {
    width = std::max(width, usage_of(option).size());
  }
  return width;
}

}  // namespace

std::string program_help() {
  std::string text =
      "tubwright turns a hot tub's test slip into a plan and prints it.\n"
      "\n"
      "usage: tubwright COMMAND …\n"
      "\n";
  for (const Command& command : all_commands()) text += row(command.name, command.summary, 10);
  text +=
      "\n"
      "  --help      this; after a command: how that command is used\n"
      "  --version   the version\n"
      "\n"
      "exit status: 0 done, 1 the job is at fault, 2 the command line is, 3 the machine or we "
      "are\n";
  return text;
}

std::string command_help(const Command& command) {
  std::string text = fmt::format("{}\n\nusage: {}\n\n", command.summary, folded(usage_of(command)));
  const std::size_t width = option_width(command);
  if (!command.operand.name.empty()) {
    text += row(command.operand.name, command.operand.help, width);
  }
  for (const CommandOption& option : command.options) {
    text += row(usage_of(option), option.help, width);
  }
  return text + fmt::format("\n{}\n", command.details);
}

std::string version_line() { return fmt::format("tubwright {}", TUB_VERSION); }

}  // namespace tub::app
