// A sheet's template: a JSON tree of blocks whose words come from facts and messages.
#pragma once

#include <memory>
#include <nlohmann/json_fwd.hpp>
#include <string>
#include <string_view>
#include <vector>

#include "document/document.h"
#include "sheets/template/facts.h"
#include "sheets/template/messages.h"

namespace tub::sheets {

/// A stock's label is large enough if it is at least as wide and as high.
struct LeastSize {
  double width_mm = 0;
  double height_mm = 0;
};

/// A template that was read and found sound: every name in it is known.
struct SheetTemplate {
  std::string sheet;  ///< "startup_card"
  std::string file;   ///< for messages
  std::shared_ptr<const nlohmann::ordered_json> tree;
  std::string facts;                        ///< the kind of facts that fill it: "plan"
  const Shape* shape = nullptr;             ///< of those facts
  std::string style = "card";               ///< what it looks like
  std::string stock = "a4";                 ///< what it is printed on where nothing is said
  std::vector<LeastSize> sizes;             ///< what it is made for, in every language
  std::vector<LeastSize> short_word_sizes;  ///< smaller ones, for short words only
  std::vector<std::string> given_up;        ///< what each turn leaves out, in words
  int split_at = 0;  ///< the turn from which each use has a label of its own; 0: never
  std::vector<RequiredMessage> messages;  ///< what it says, by key
};

/// Reads `templates/sheets/<name>.json` (docs/templates.md).
///
/// Throws: Error with every unknown block, field, fact and broken mark, each at its place
SheetTemplate parse_sheet_template(std::string_view text, const std::string& file);

/// The document that a template makes of facts, in one language.
///
/// REQUIRES: facts of the template's shape; a language that has the template's messages
/// Throws: Error if a text that a fact gave cannot stand where it is put (a pictogram's name)
///
/// turn: how much of what may be given up is left out, from 0 to `given_up.size()`
Document fill_template(const SheetTemplate& sheet, const Facts& facts, const Messages& messages,
                       int turn = 0);

}  // namespace tub::sheets
