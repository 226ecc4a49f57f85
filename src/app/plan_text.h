// The plan for a terminal: one step a paragraph.
#pragma once

#include <string>
#include <vector>

#include "sheets/template/messages.h"
#include "sheets/template/sheet_sources.h"

namespace tub::app {

/// How a text for a terminal is set.
struct TextStyle {
  bool with_colour = false;
  std::size_t width = 78;  ///< columns
};

/// The plan in English; names, assumptions and the hand-over are in the language file's words.
std::string plan_text(const SheetSources& sources, const Messages& names, const TextStyle& style);

/// Each thing that keeps people out when the plan is done, in the words of the plan's text.
std::vector<std::string> closing_texts(const SheetSources& sources, const Messages& names);

}  // namespace tub::app
