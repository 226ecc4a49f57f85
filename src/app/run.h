// The command line from its words to an exit status.
#pragma once

#include <span>
#include <string>

namespace tub::app {

/// Runs the program. All problems are on standard error when it returns.
///
/// Throws:  std::bad_alloc; there may be no memory left for a message
/// Returns: 0 done, 1 the job is at fault, 2 the command line is, 3 the machine or the program is
int run_command_line(std::span<const std::string> words);

}  // namespace tub::app
