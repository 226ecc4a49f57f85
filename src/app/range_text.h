// Ranges in a terminal's text: what is printed holds what is meant.
#pragma once

#include <string>

#include "base/interval.h"
#include "planning/reading.h"

namespace tub::app {

/// A reading's value as a person reads it: "7.5", "112".
std::string reading_text(Reading reading, double value);

/// "7.2 to 7.6": the ends rounded away from each other, each as finely as such a reading is shown.
std::string range_text(Reading reading, Range range);

/// "1.2 to 3": the ends rounded away from each other, with at most so many decimals.
std::string range_text(Range range, int most_decimals);

/// "8.5": no less than the value.
std::string at_most_text(Reading reading, double value);

}  // namespace tub::app
