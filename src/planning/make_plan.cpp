#include "planning/make_plan.h"

#include <algorithm>

#include "chemistry/gas.h"
#include "planning/citations.h"
#include "planning/goals/floater.h"
#include "planning/goals/sanitizer.h"
#include "planning/goals/single_reading.h"
#include "planning/pours/measured_draft.h"
#include "planning/remedies/refill.h"
#include "planning/remedies/remedies.h"
#include "planning/remedies/unmet.h"
#include "planning/retests/replan.h"
#include "planning/steps/plan_steps.h"
#include "planning/steps/waits.h"
#include "planning/water/active_sanitizer.h"

namespace tub::planning {
namespace {

Drift drift_of(const Situation& situation, const Water& final) {
  const SpeciesTable& species = situation.bench.species();
  const double air = species.gas_exchange().air_log10_pco2_atm;
  const Water spent = spend_all_total_bromine(spend_all_free_chlorine(final));
  Water half_way = spent;
  half_way.totals[Component::carbonate] -= carbon_surplus(half_way, air, species) / 2;
  const Water at_air = exchange_carbon_dioxide(spent, air, species);
  const WaterState state = situation.bench.state(at_air);
  const Supply* const acid = situation.mildest(Purpose::lower_ph);
  return {situation.bench.ph(half_way), state.ph, state.saturation_index,
          acid == nullptr ? "" : acid->product().id};
}

bool meets_a_demand(const Move& move) {
  const auto* dose = std::get_if<DoseMove>(&move);
  return dose != nullptr && dose->spends_mg_l > 0;
}

/// What the sanitizer's moves rest on.
void assume_for_sanitizer(const Situation& situation, const Draft& draft,
                          std::vector<Reason>& assumed) {
  const Assumptions& assumptions = situation.assumptions;
  if (std::any_of(draft.begin(), draft.end(), meets_a_demand)) {
    assumed.push_back(reason_of(assumptions.fresh_water_demand_mg_l));
  }
  for (const Move& move : draft) {
    if (const auto* floater = std::get_if<FloaterMove>(&move)) {
      const std::vector<Reason> more = assumed_by_floater(situation, *floater);
      assumed.insert(assumed.end(), more.begin(), more.end());
    }
    const auto* dose = std::get_if<DoseMove>(&move);
    if (dose == nullptr) continue;
    const Product& product = dose->supply->product();
    if (product.can(Purpose::bromide_bank)) {
      assumed.push_back(reason_of(assumptions.bromide_bank_mg_l));
    }
    if (product.dissolves) {
      assumed.push_back(dissolving_reason(*product.dissolves));
    }
  }
}

std::vector<Reason> assumed_by(const Situation& situation, const Draft& draft) {
  std::vector<Reason> assumed = situation.request.assumed;
  const auto append = [&](const std::vector<Reason>& more) {
    assumed.insert(assumed.end(), more.begin(), more.end());
  };
  append(situation.request.tub.assumed);
  append(situation.start.assumed);
  const Assumed& dosing = situation.assumptions.dosing_temperature_c;
  // A tub that is bathed in colder is poured into at that temperature.
  if (situation.dosing_c == dosing.value) assumed.push_back(reason_of(dosing));
  assumed.push_back(reason_of(situation.assumptions.carbon_dioxide_lost_per_wait));
  if (situation.refill.fraction > 0) {
    assumed.push_back(reason_of(situation.assumptions.refill_half_width));
  }
  assume_for_sanitizer(situation, draft, assumed);
  for (const auto& [reading, target] : situation.targets.readings) {
    if (!target.stop_is_assumed || !situation.gate.readings.contains(reading)) continue;
    assumed.push_back(
        {"stop_assumed", {{"reading", std::string(key_of(reading))}, {"value", *target.stop}}});
  }
  return assumed;
}

/// The jets' rate, where the plan waits for them.
void assume_jets(const std::vector<Step>& steps, const GasExchange& gas,
                 std::vector<Reason>& assumed) {
  const bool waits = std::any_of(steps.begin(), steps.end(), [](const Step& step) {
    return std::holds_alternative<ReleaseCarbonDioxide>(step.what) ||
           std::holds_alternative<Repeat>(step.what);
  });
  if (!waits) return;
  assumed.push_back({"carbon_dioxide_release_per_hour",
                     {{"value", gas.jets_on.value},
                      {"unit", std::string("1/h")},
                      {"low", gas.jets_on.low},
                      {"high", gas.jets_on.high}}});
}

/// How fast a sanitizer falls, where the plan waits for it.
void assume_fall(const Situation& situation, const std::vector<Unmet>& unmet,
                 std::vector<Reason>& assumed) {
  const bool waits = std::any_of(unmet.begin(), unmet.end(), [](const Unmet& one) {
    return one.remedy && one.remedy->kind == "wait" && one.remedy->hours;
  });
  const Reason half_life = reason_of(situation.assumptions.sanitizer_half_life_h);
  const bool is_known = std::any_of(assumed.begin(), assumed.end(),
                                    [&](const Reason& one) { return one.code == half_life.code; });
  if (waits && !is_known) assumed.push_back(half_life);
}

/// The shelf in the order of the product rows: a job's own order changes nothing.
std::vector<ShelfItem> in_row_order(std::vector<ShelfItem> shelf,
                                    const std::vector<Product>& rows) {
  const auto row_of = [&](const ShelfItem& item) {
    return std::find_if(rows.begin(), rows.end(),
                        [&](const Product& row) { return row.id == item.product.id; });
  };
  std::stable_sort(shelf.begin(), shelf.end(),
                   [&](const ShelfItem& a, const ShelfItem& b) { return row_of(a) < row_of(b); });
  return shelf;
}

Plan described(const Situation& situation, const Draft& draft) {
  const PlanRequest& request = situation.request;
  Plan plan;
  plan.fingerprint = request.fingerprint;
  plan.sanitizer = request.sanitizer.kind;
  plan.mineral_cartridge = request.sanitizer.mineral_cartridge;
  plan.volume_l = request.tub.volume_l;
  plan.volume_give_or_take = request.tub.volume_give_or_take;
  plan.use = request.tub.use;
  plan.targets = situation.targets;
  plan.gate = situation.gate.readings;
  for (const Provenance& source : situation.gate.sources) plan.gate_sources.push_back(source.text);
  plan.cautions = cautions_of(situation);
  plan.retest_with = request.retest_with.id;
  plan.measured = situation.start.measured;
  plan.hazards = dangerous_pairs(in_row_order(request.shelf, situation.data.products),
                                 situation.data.hazard_rules);
  plan.assumed = assumed_by(situation, draft);
  if (situation.mildest(Purpose::hold_metals) != nullptr) plan.held = metals_to_hold(situation);
  return plan;
}

}  // namespace

Plan make_plan(const PlanRequest& request, const PlanningData& data, const SpeciesTable& species) {
  if (!request.retests.empty()) return replanned(request, data, species);
  const Waters waters = waters_of(request, data, species);
  const Refill refill = best_refill(request, data, species, waters);
  const Situation situation(request, data, species, refilled(waters, refill, data, species),
                            refill);
  const PouredOut poured = measured(situation);
  const Draft& draft = poured.draft;
  const Water final = situation.bench.after(situation.start.water, draft);
  Plan plan = described(situation, draft);
  plan.start = waters.first.state;
  if (waters.second) plan.second_source = waters.second->state;
  plan.steps = steps_of(situation, draft);
  wait_for_partners(plan.steps, plan.hazards);
  assume_jets(plan.steps, species.gas_exchange(), plan.assumed);
  plan.final = situation.bench.state(final);
  const Branches branches = situation.uncertainty().after(draft);
  const Outcomes outcomes = branches.outcomes();
  plan.final_range = ranges_of(branches, outcomes);
  plan.active_sanitizer = active_sanitizer(situation, final, outcomes);
  plan.hand_over = hand_over(situation);
  plan.drift = drift_of(situation, final);
  plan.unmet = unmet_of(situation, poured.left_out, plan.final);
  assume_fall(situation, plan.unmet, plan.assumed);
  add_remedies(situation, plan.unmet);
  plan.gate_closed = close_gate(situation, plan.unmet);
  plan.sources = citations(situation, plan);
  return plan;
}

}  // namespace tub::planning
