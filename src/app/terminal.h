// What is shown on a terminal: diagnostics, and colour where it is wanted.
#pragma once

#include <span>
#include <string>
#include <string_view>

#include "base/error.h"

namespace tub::app {

/// True if that stream (1: output, 2: error) is a terminal that takes colour; NO_COLOR says no.
bool takes_colour(int descriptor);

/// The text in bold, if colour is taken.
std::string bold(std::string_view text, bool with_colour);

/// Each as "error: …" or "warning: …", for standard error.
std::string shown(std::span<const Diagnostic> diagnostics, std::string_view severity);

}  // namespace tub::app
