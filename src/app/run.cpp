#include "app/run.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <exception>
#include <new>

#include "app/commands.h"
#include "app/files.h"
#include "app/help.h"
#include "app/terminal.h"
#include "base/error.h"

namespace tub::app {
namespace {

using Run = int (*)(const Arguments&);

struct Runner {
  std::string_view name;
  Run run;
};

constexpr std::array<Runner, 8> runners = {{
    {"new", run_new},
    {"check", run_check},
    {"plan", run_plan},
    {"print", run_print},
    {"water", run_water},
    {"list", run_list},
    {"schema", run_schema},
    {"completion", run_completion},
}};

int dispatch(const Arguments& arguments) {
  if (arguments.command == nullptr) {
    const bool asks_version = arguments.has("--version");
    write_standard_output(asks_version ? version_line() + "\n" : program_help());
    return 0;
  }
  if (arguments.has("--help")) {
    write_standard_output(command_help(*arguments.command));
    return 0;
  }
  const auto runner = std::find_if(runners.begin(), runners.end(), [&](const Runner& row) {
    return row.name == arguments.command->name;
  });
  return runner->run(arguments);
}

int report(const Diagnostic& diagnostic) {
  write_standard_error(shown({&diagnostic, 1}, "error"));
  return static_cast<int>(diagnostic.fault);
}

}  // namespace

int run_command_line(std::span<const std::string> words) {
  try {
    return dispatch(parse_arguments(words));
  } catch (const Error& error) {
    write_standard_error(shown(error.diagnostics(), "error"));
    return static_cast<int>(error.fault());
  } catch (const std::bad_alloc&) {
    throw;  // main says so without needing more of it
  } catch (const std::exception& error) {
    return report({fmt::format("the program has a bug: {}", error.what()),
                   "",
                   {},
                   "please report it with the job that shows it",
                   Fault::machine});
  }
}

}  // namespace tub::app
