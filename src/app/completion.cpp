// The script that completes commands and options, from the table of arguments.
#include <fmt/format.h>

#include "app/help.h"

namespace tub::app {
namespace {

std::string joined(std::span<const std::string_view> words) {
  return fmt::format("{}", fmt::join(words, " "));
}

// The shell command that fills COMPREPLY for one place.
std::string reply_for(Completion completion) {
  const auto listed = [](std::string_view what) {
    return fmt::format("_tubwright_words \"$(tubwright list {} 2>/dev/null | cut -d' ' -f1)\"",
                       what);
  };
  switch (completion) {
    case Completion::nothing:
      return "COMPREPLY=()";
    case Completion::file:
      return "_tubwright_paths -f";
    case Completion::folder:
      return "_tubwright_paths -d";
    case Completion::sheet:
      return listed("sheets");
    case Completion::stock:
      return listed("stocks");
    case Completion::language:
      return listed("languages");
    default:
      return fmt::format("_tubwright_words \"{}\"", joined(fixed_words(completion)));
  }
}

std::string option_cases(const Command& command) {
  std::string text;
  for (const CommandOption& option : command.options) {
    if (option.is_flag()) continue;
    text += fmt::format("    {}:{}) {}; return ;;\n", command.name, option.name,
                        reply_for(option.completion));
  }
  return text;
}

std::string command_case(const Command& command) {
  std::string options;
  for (const CommandOption& option : command.options) {
    options += fmt::format("{}{}", options.empty() ? "" : " ", option.name);
  }
  const std::string operand =
      command.operand.name.empty() ? "COMPREPLY=()" : reply_for(command.operand.completion);
  return fmt::format(
      "    {})\n      if [[ $word == -* ]]; then _tubwright_words \"{}\"; else {}; fi ;;\n",
      command.name, options, operand);
}

constexpr std::string_view head =
    R"(# Completion of tubwright for bash; written by `tubwright completion bash`.
_tubwright_words() { mapfile -t COMPREPLY < <(compgen -W "$1" -- "$word"); }
_tubwright_paths() { compopt -o filenames; mapfile -t COMPREPLY < <(compgen "$1" -- "$word"); }
_tubwright() {
  local word=${COMP_WORDS[COMP_CWORD]} before=${COMP_WORDS[COMP_CWORD-1]} command=${COMP_WORDS[1]}
)";

}  // namespace

std::string bash_completion() {
  std::string text(head);
  std::string names;
  for (const Command& command : all_commands()) names += fmt::format("{} ", command.name);
  text += fmt::format(
      "  if ((COMP_CWORD == 1)); then _tubwright_words \"{}--help --version\"; return; fi\n",
      names);
  text += "  case $command:$before in\n";
  for (const Command& command : all_commands()) text += option_cases(command);
  text += "  esac\n  case $command in\n";
  for (const Command& command : all_commands()) text += command_case(command);
  return text + "  esac\n}\ncomplete -F _tubwright tubwright\n";
}

}  // namespace tub::app
