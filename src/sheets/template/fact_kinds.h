// The kinds of facts that templates are filled from: which names each has, and who makes them.
#pragma once

#include <span>
#include <string_view>
#include <vector>

#include "base/error.h"
#include "sheets/template/facts.h"
#include "sheets/template/messages.h"
#include "sheets/template/sheet_sources.h"

namespace tub::sheets {

/// What facts are asked for beyond the plan's own.
struct FactRequest {
  std::string product;    ///< only the labels of this product; empty: of all
  bool is_split = false;  ///< a label with several uses becomes one label for each
  std::vector<const Messages*> more_languages = {};  ///< that stand on the same label
};

/// Facts of one printed piece each, and what a careful reader would want to know of them.
using FactSets = Outcome<std::vector<Facts>>;

/// `"facts"` in a template.
struct FactKind {
  std::string_view name;  ///< "plan"
  const Shape* shape;
  FactSets (*make)(const SheetSources& sources, const Messages& messages,
                   const FactRequest& request);
};

std::span<const FactKind> fact_kinds();

/// The kind of a template that was read. REQUIRES: one of the names
const FactKind& fact_kind(std::string_view name);

}  // namespace tub::sheets
