// The facts of a plan: every string and number that a sheet about one tub may print.
#pragma once

#include "sheets/template/facts.h"
#include "sheets/template/messages.h"
#include "sheets/template/sheet_sources.h"

namespace tub::sheets {

/// The names that templates with `"facts": "plan"` may use (docs/templates.md lists them).
const Shape& plan_shape();

/// REQUIRES: a language that has every message of `required_messages`
Facts plan_facts(const SheetSources& sources, const Messages& messages);

}  // namespace tub::sheets
