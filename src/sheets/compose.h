// The bridge: a plan, a template and a language make a document.
#pragma once

#include "document/document.h"
#include "sheets/template/messages.h"
#include "sheets/template/sheet_sources.h"
#include "sheets/template/sheet_template.h"

namespace tub::sheets {

/// The sheet of a plan in one language: everything on it comes from the plan or the heading.
///
/// REQUIRES: a language read with `required_messages` of this template
Document compose(const SheetSources& sources, const SheetTemplate& sheet, const Messages& messages);

/// What of a sheet is wanted, and how much of what may be given up is left out.
struct PieceRequest {
  std::string product;  ///< only the labels of this product; empty: of all
  int turn = 0;         ///< from 0 to `SheetTemplate::given_up.size()`
  std::vector<const Messages*> more_languages = {};  ///< that stand on the same label
};

/// Every printed piece of a sheet: one document, or one for each label.
///
/// The warnings are what a careful reader would want to know before printing.
/// Throws: Error if a label must not be printed, with the reason and the way out
Outcome<std::vector<Document>> compose_pieces(const SheetSources& sources,
                                              const SheetTemplate& sheet, const Messages& messages,
                                              const PieceRequest& request);

}  // namespace tub::sheets
