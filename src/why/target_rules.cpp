// Targets: whose figures they are.
#include <fmt/format.h>

#include "job/read/slip.h"
#include "why/asking.h"
#include "why/grounds.h"
#include "why/rules.h"

namespace tub::why {
namespace {

/// The set that the job names, before a cartridge lowers anything.
const Target& target_of(const Asking& asking, Reading reading) {
  return asking.request.targets.readings.at(reading);
}

Provenance source_of(const Asking& asking, const Target& target, const std::string& field) {
  if (field == "stop" && target.stop_is_assumed) {
    return assumed_by_us("the source names no maximum");
  }
  if (target.source) return *target.source;
  const TargetSet& set = asking.request.targets;
  return {set.from_memory ? Provenance::Kind::from_memory : Provenance::Kind::published,
          set.source};
}

/// The job's own figure instead of the set's; empty if it has none.
std::string own_figure(Asking& asking, Reading reading, const std::string& field) {
  const std::string pointer = fmt::format("/targets/{}/{}", name_of(reading), field);
  const std::string bare = job_number(asking, pointer, field, unit_of_key(key_of(reading)));
  if (!bare.empty()) return bare;
  const SlipField* slip = slip_field_of(reading);
  return slip == nullptr ? "" : job_quantity(asking, pointer, slip->kind, field);
}

/// What a mineral cartridge lets the residual fall to; empty if it is not that.
std::string beside_cartridge(Asking& asking, Reading reading, double value) {
  if (!asking.request.sanitizer.mineral_cartridge) return "";
  const Assumptions& assumed = asking.data.assumptions;
  for (const auto& [sanitizer, row] :
       {std::pair{Reading::free_chlorine, &assumed.cartridge_free_chlorine_mg_l},
        std::pair{Reading::total_bromine, &assumed.cartridge_total_bromine_mg_l}}) {
    if (sanitizer == reading && row->value == value) return assumption(asking, *row);
  }
  return "";
}

}  // namespace

Node explain_target(Asking& asking, const Place& place) {
  const Reading reading = *reading_named(place.parts.at(2));
  const std::string& field = place.parts.at(3);
  const double value = asking.in_plan().number(place.pointer).value_or(0);
  const std::string beside = field == "low" ? beside_cartridge(asking, reading, value) : "";
  if (!beside.empty()) return same_as(asking, beside);
  const std::string own = own_figure(asking, reading, field);
  if (!own.empty()) return same_as(asking, own);
  const std::string where =
      fmt::format("targets.json: {}/{}/{}", asking.plan.targets.id, name_of(reading), field);
  return same_as(asking, data_row(asking, where, field, value, unit_of_key(key_of(reading)),
                                  source_of(asking, target_of(asking, reading), field)));
}

Node explain_held(Asking& asking, const Place& place) {
  return same_as(asking, reading_of(asking, asking.before(0), place.parts.back()));
}

Node explain_version(Asking& asking, const Place& place) {
  const double version = asking.in_plan().number(place.pointer).value_or(1);
  return same_as(asking, constant(asking, "version of the plan's format", version, "",
                                  definition("docs/plan-format.md")));
}

}  // namespace tub::why
