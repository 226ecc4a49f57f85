// A sheet's template: a JSON tree of blocks whose words come from facts and messages.
#pragma once

#include <memory>
#include <nlohmann/json_fwd.hpp>
#include <string>
#include <string_view>
#include <vector>

#include "document/document.h"
#include "sheets/facts.h"
#include "sheets/messages.h"

namespace tub {

/// A template that was read and found sound: every name in it is known.
struct SheetTemplate {
  std::string sheet;  ///< "startup_card"
  std::string file;   ///< for messages
  std::shared_ptr<const nlohmann::ordered_json> tree;
  const Shape* shape = nullptr;           ///< of the facts that fill it
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
Document fill_template(const SheetTemplate& sheet, const Facts& facts, const Messages& messages);

}  // namespace tub
