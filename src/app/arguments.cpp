#include "app/arguments.h"

#include <fmt/format.h>

#include <algorithm>

#include "base/nearest.h"

namespace tub::app {
namespace {

std::vector<std::string> names_of(std::span<const Command> commands) {
  std::vector<std::string> names;
  for (const Command& command : commands) names.emplace_back(command.name);
  return names;
}

std::vector<std::string> names_of(std::span<const CommandOption> options) {
  std::vector<std::string> names;
  for (const CommandOption& option : options) names.emplace_back(option.name);
  return names;
}

// Reads the words of one command, one after the other.
class Reader {
 public:
  Reader(std::span<const std::string> words, Arguments& arguments, Problems& problems)
      : words_(words), arguments_(arguments), problems_(problems) {}

  void read() {
    bool options_ended = false;
    while (next_ < words_.size()) {
      const std::string word = words_[next_++];
      if (!options_ended && word == "--") {
        options_ended = true;
      } else if (!options_ended && word.size() > 1 && word.front() == '-') {
        read_option(word);
      } else {
        read_operand(word);
      }
    }
  }

 private:
  void read_option(const std::string& word) {
    const std::size_t equals = word.find('=');
    const std::string name = word.substr(0, equals);
    const auto& known = arguments_.command->options;
    const auto option = std::find_if(known.begin(), known.end(),
                                     [&](const CommandOption& row) { return row.name == name; });
    if (option == known.end()) {
      fault(fmt::format("{} has no option {}", arguments_.command->name, name),
            suggestion(name, names_of(known)));
    } else if (option->is_flag()) {
      if (equals != std::string::npos)
        fault(fmt::format("{} takes no value", name), "leave it out");
      arguments_.options[name];
    } else if (equals != std::string::npos) {
      store(*option, word.substr(equals + 1));
    } else if (next_ < words_.size()) {
      store(*option, words_[next_++]);
    } else {
      fault(fmt::format("{} needs a value", name),
            fmt::format("write {} {}", name, option->value_name));
    }
  }

  void store(const CommandOption& option, const std::string& value) {
    auto& values = arguments_.options[std::string(option.name)];
    if (!option.repeats && !values.empty()) {
      fault(fmt::format("{} was given more than once", option.name), "keep one of them");
    }
    check_fixed(option.name, option.completion, value);
    values.push_back(value);
  }

  void read_operand(const std::string& word) {
    const CommandOperand& operand = arguments_.command->operand;
    if (operand.name.empty() || arguments_.operand) {
      fault(fmt::format("{} does not know what to do with \"{}\"", arguments_.command->name, word),
            "leave it out");
      return;
    }
    check_fixed(operand.name, operand.completion, word);
    arguments_.operand = word;
  }

  void check_fixed(std::string_view place, Completion completion, const std::string& value) {
    const auto words = fixed_words(completion);
    if (words.empty() || std::find(words.begin(), words.end(), value) != words.end()) return;
    const std::vector<std::string> known(words.begin(), words.end());
    fault(fmt::format("\"{}\" is not known as {}", value, place), suggestion(value, known));
  }

  void fault(std::string message, std::string help) {
    problems_.add(command_line_fault(std::move(message), std::move(help)));
  }

  std::span<const std::string> words_;
  std::size_t next_ = 0;
  Arguments& arguments_;
  Problems& problems_;
};

void require_all(const Arguments& arguments, Problems& problems) {
  const Command& command = *arguments.command;
  if (!command.operand.name.empty() && command.operand.is_required && !arguments.operand) {
    problems.add(command_line_fault(
        fmt::format("{} needs {}", command.name, command.operand.name),
        fmt::format("write: tubwright {} {}", command.name, command.operand.name)));
  }
  for (const CommandOption& option : command.options) {
    if (!option.is_required || arguments.has(option.name)) continue;
    problems.add(command_line_fault(fmt::format("{} needs {}", command.name, option.name),
                                    fmt::format("add {} {}", option.name, option.value_name)));
  }
}

bool is_about_the_program(const std::string& word) {
  return word == "--help" || word == "-h" || word == "help" || word == "--version";
}

}  // namespace

std::optional<std::string> Arguments::value(std::string_view option) const {
  const auto found = options.find(option);
  if (found == options.end() || found->second.empty()) return std::nullopt;
  return found->second.front();
}

std::vector<std::string> Arguments::values(std::string_view option) const {
  const auto found = options.find(option);
  return found == options.end() ? std::vector<std::string>{} : found->second;
}

Diagnostic command_line_fault(std::string message, std::string help) {
  return {std::move(message), "the command line", {}, std::move(help), Fault::command_line};
}

Arguments parse_arguments(std::span<const std::string> words) {
  if (words.empty()) {
    throw Error(command_line_fault("no command was given", "see tubwright --help"));
  }
  Arguments arguments;
  if (is_about_the_program(words.front())) {
    arguments.options[words.front() == "--version" ? "--version" : "--help"];
    return arguments;
  }
  arguments.command = command_named(words.front());
  if (arguments.command == nullptr) {
    throw Error(command_line_fault(fmt::format("there is no command \"{}\"", words.front()),
                                   suggestion(words.front(), names_of(all_commands()))));
  }
  Problems problems;
  Reader(words.subspan(1), arguments, problems).read();
  if (arguments.has("--help")) return arguments;
  require_all(arguments, problems);
  problems.throw_if_any();
  return arguments;
}

}  // namespace tub::app
