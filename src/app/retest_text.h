// What is done of a plan and what retests found, for a terminal.
#pragma once

#include <string>

#include "planning/plan.h"
#include "sheets/template/messages.h"

namespace tub::app {

/// "1 fill, heat to 27 °C; 2 sequestrant, 60 mL": empty where the plan starts at its beginning.
std::string done_text(const Plan& plan, const Messages& names);

/// What a retest or visit found, what was expected, and the likeliest reason.
std::string found_text(const FoundReading& found, const Messages& names);

}  // namespace tub::app
