// The gate: whose figures it has, what keeps it closed, what to mind before anything is poured.
#include <fmt/format.h>

#include <algorithm>

#include "why/asking.h"
#include "why/equations.h"
#include "why/grounds.h"
#include "why/rules.h"

namespace tub::why {
namespace {

double stated(const Asking& asking, const Place& place) {
  return asking.in_plan().number(place.pointer).value_or(0);
}

/// The figure of a set's row that the job has put its own beside.
Node published_ceiling(Asking& asking, Reading reading, double value) {
  const TargetSet& set = asking.request.targets;
  const auto kind = set.from_memory ? Provenance::Kind::from_memory : Provenance::Kind::published;
  return same_as(asking,
                 data_row(asking, fmt::format("targets.json: {}/{}", set.id, name_of(reading)),
                          "ceiling", value, unit_of_key(key_of(reading)), {kind, set.source}));
}

Node row_of_gate(Asking& asking, Reading reading, const std::string& end, double value) {
  const Gate& gate = asking.data.gate;
  const std::string unit = unit_of_key(key_of(reading));
  const auto ceiling = gate.ceilings.find(reading);
  if (ceiling == gate.ceilings.end()) {
    return same_as(asking,
                   data_row(asking, fmt::format("targets.json: gate/{}/{}", name_of(reading), end),
                            end, value, unit, gate.source));
  }
  if (end == "low") {
    return same_as(asking, constant(asking, "nothing", 0, "mg/L", definition("not below zero")));
  }
  if (value != ceiling->second.stop) return published_ceiling(asking, reading, value);
  return same_as(asking,
                 data_row(asking, fmt::format("targets.json: gate/ceilings/{}", name_of(reading)),
                          "ceiling", value, unit, ceiling->second.source));
}

/// The unmet reading that closes the gate.
std::string closing_unmet(const Plan& plan) {
  const std::string reading = plan.gate_closed->text("reading");
  const auto found = std::find_if(plan.unmet.begin(), plan.unmet.end(), [&](const Unmet& one) {
    return one.reason.code == plan.gate_closed->code && key_of(one.reading) == reading;
  });
  return fmt::format("/unmet/{}", found - plan.unmet.begin());
}

}  // namespace

Node explain_gate(Asking& asking, const Place& place) {
  const std::string& key = place.parts.at(1);
  const std::string& end = place.parts.at(2);
  const double value = stated(asking, place);
  for (const char* field : {end == "low" ? "bathe_low" : "stop", end == "low" ? "" : "high"}) {
    const std::string own = fmt::format("/targets/readings/{}/{}", key, field);
    if (asking.in_plan().number(own) == value) return same_as(asking, asking.ask(own));
  }
  return row_of_gate(asking, *reading_named(key), end, value);
}

Node explain_gate_closed(Asking& asking, const Place& place) {
  const std::string unmet = closing_unmet(asking.plan);
  const std::string& field = place.parts.back();
  const std::string key = asking.plan.gate_closed->text("reading");
  for (const std::string& pointer :
       {fmt::format("/gate/{}/{}", key, field), unmet + "/" + field, unmet + "/remedy/" + field}) {
    if (asking.in_plan().number(pointer)) return same_as(asking, asking.ask(pointer));
  }
  return {"", "", 0, "", "counted", {}};
}

Node explain_caution(Asking& asking, const Place& place) {
  const Reason& caution = asking.plan.cautions.at(std::stoul(place.parts.at(1)));
  const Assumptions& assumptions = asking.data.assumptions;
  const std::string& field = place.parts.back();
  if (field == "no_more_from_mg_l") {
    return same_as(asking, assumption(asking, assumptions.no_more_dichlor_cyanuric_acid_mg_l));
  }
  if (field == "most_mg_l") return same_as(asking, asking.ask("/gate/cyanuric_acid_mg_l/high"));
  if (field == "times") return same_as(asking, assumption(asking, assumptions.sequestrant_reach));
  if (field == "limit_mg_l") {
    return metal_limit(asking, place, *reading_named(caution.text("reading")));
  }
  const std::string key = field == "found_mg_l" ? caution.text("reading") : field;
  return same_as(asking, reading_of(asking, asking.before(0), key));
}

}  // namespace tub::why
