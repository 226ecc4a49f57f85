// The command line as data: what there is to type, for reading it, for help and for completion.
#pragma once

#include <span>
#include <string_view>
#include <vector>

namespace tub::app {

/// What may stand in one place of the command line, so that a shell can complete it.
enum class Completion {
  nothing,
  file,
  folder,
  format,     // the formats that `print` writes
  data_list,  // what `list` can list
  schema,     // what `schema` can show
  sheet,      // a name that `list sheets` prints
  stock,
  language,
  shell,  // what `completion` writes for
};

/// `--name VALUE`, or a flag if it takes no value.
struct CommandOption {
  std::string_view name;  ///< "--out"
  std::string_view value_name;
  std::string_view help;
  Completion completion = Completion::nothing;
  bool repeats = false;
  bool is_required = false;

  bool is_flag() const { return value_name.empty(); }
};

/// The word that a command may or must be given without an option.
struct CommandOperand {
  std::string_view name;  ///< "JOB"; empty: the command takes none
  std::string_view help;
  Completion completion = Completion::nothing;
  bool is_required = true;
};

struct Command {
  std::string_view name;
  std::string_view summary;  ///< one line
  std::string_view details;  ///< paragraphs for its own help
  CommandOperand operand{};
  std::vector<CommandOption> options{};
};

std::span<const Command> all_commands();

/// The command of that name; null if there is none.
const Command* command_named(std::string_view name);

/// The words that are always the same in one place; empty where data or files decide.
std::span<const std::string_view> fixed_words(Completion completion);

}  // namespace tub::app
