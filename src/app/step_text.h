// One step of a plan in words.
#pragma once

#include <string>

#include "planning/plan.h"
#include "sheets/template/messages.h"

namespace tub::app {

/// "80 min", "2.5 h", "3 days".
std::string time_text(double minutes);

/// What to do, in sentences.
std::string step_text(const Step& step, const Messages& names);

/// A product's or a reading's name inside a sentence; its identifier where the language lacks it.
std::string product_name(const std::string& product, const Messages& names);
std::string reading_name(Reading reading, const Messages& names);

}  // namespace tub::app
