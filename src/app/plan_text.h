// The plan for a terminal: one step a paragraph.
#pragma once

#include <string>

#include "planning/heading.h"
#include "planning/plan.h"
#include "sheets/messages.h"

namespace tub {

/// How a text for a terminal is set.
struct TextStyle {
  bool with_colour = false;
  std::size_t width = 78;  ///< columns
};

/// The plan in English, names by the language file.
std::string plan_text(const Plan& plan, const Heading& heading, const Messages& names,
                      const TextStyle& style);

}  // namespace tub
