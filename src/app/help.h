// Help and shell completion, written from the command table.
#pragma once

#include <string>

#include "app/command_table.h"

namespace tub::app {

/// What the program does, and its commands.
std::string program_help();

/// How one command is used.
std::string command_help(const Command& command);

/// A completion script for bash.
std::string bash_completion();

/// "tubwright 0.1.0"
std::string version_line();

}  // namespace tub::app
