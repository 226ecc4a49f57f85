// What the sheets' tests share: the project's own data, a plan made by hand, documents as text.
#pragma once

#include <string>
#include <vector>

#include "document/document.h"
#include "planning/heading.h"
#include "planning/plan.h"
#include "planning/request.h"
#include "sheets/template/messages.h"
#include "sheets/template/sheet_template.h"

namespace tub::sheets::test {

/// The rows of src/planning/data that sheets name.
const PlanningData& planning_data();
const SheetTemplate& startup_card();
/// Every sheet of templates/sheets.
const std::vector<SheetTemplate>& all_sheets();
const SheetTemplate& sheet_named(const std::string& name);
/// A language with every word that these sheets ask for.
const Messages& language(const std::string& tag);
const Messages& english();

/// English with every letter of its words made an x: what still has letters came from elsewhere.
Messages letterless_english();

/// A plan made by hand, with every kind of step that an owner of a private tub meets. Its numbers
/// are invented: nobody computed this water.
Plan quince_row_plan();
Heading quince_row_heading();

Document startup_document(const Plan& plan, const Heading& heading);
Document startup_document(const Plan& plan, const Heading& heading, const Messages& messages);

/// A document's blocks as lines: what stands where, with its marks (*bold*, [target], ~small~).
std::string text_of(const Document& document);
/// All words of a document, one string a line, without marks.
std::string words_of(const Document& document);

}  // namespace tub::sheets::test
