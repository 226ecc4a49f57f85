#include "sheets/template/fact_kinds.h"

#include <algorithm>
#include <array>
#include <cassert>

#include "sheets/cabinet/container_facts.h"
#include "sheets/cabinet/hazard_sheet_facts.h"
#include "sheets/cabinet/top_up_facts.h"
#include "sheets/cabinet/top_up_shapes.h"
#include "sheets/card/plan_facts.h"

namespace tub::sheets {
namespace {

FactSets one_plan(const SheetSources& sources, const Messages& messages, const FactRequest&) {
  return {{plan_facts(sources, messages)}, {}};
}

const std::array kinds = {
    FactKind{"plan", &plan_shape(), one_plan},
    FactKind{"cabinet", &cabinet_shape(), cabinet_facts},
    FactKind{"dose_tag", &tag_shape(), tag_facts},
    FactKind{"container", &container_shape(), container_facts},
    FactKind{"hazards", &hazard_sheet_shape(), hazard_sheet_facts},
};

}  // namespace

std::span<const FactKind> fact_kinds() { return kinds; }

const FactKind& fact_kind(std::string_view name) {
  const auto found = std::find_if(kinds.begin(), kinds.end(),
                                  [&](const FactKind& kind) { return kind.name == name; });
  assert(found != kinds.end() && "a kind of facts that no template was read with");
  return *found;
}

}  // namespace tub::sheets
