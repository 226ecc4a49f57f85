// The bridge: a plan, a template and a language make a document.
#pragma once

#include "document/document.h"
#include "sheets/messages.h"
#include "sheets/sheet_sources.h"
#include "sheets/sheet_template.h"

namespace tub {

/// The sheet of a plan in one language: everything on it comes from the plan or the heading.
///
/// REQUIRES: a language read with `required_messages` of this template
Document compose(const SheetSources& sources, const SheetTemplate& sheet, const Messages& messages);

}  // namespace tub
