#include "planning/make_plan.h"

#include <algorithm>

#include "chemistry/gas.h"
#include "planning/citations.h"
#include "planning/goals/single_reading.h"
#include "planning/plan_steps.h"
#include "planning/unmet.h"
#include "planning/waits.h"

namespace tub {
namespace {

/// What is done before and after the water is balanced. Order: common practice, no source.
Frame frame_of(const Situation& situation) {
  Frame frame;
  if (situation.start.state.temperature_c < situation.dosing_c) {
    frame.before.emplace_back(HeatMove{situation.dosing_c});
  }
  if (const auto dose = sequestrant_dose(situation)) frame.before.emplace_back(*dose);
  if (const auto dose = sanitizer_dose(situation)) frame.after.emplace_back(*dose);
  if (const auto dose = calcium_dose(situation, frame.after)) frame.after.emplace_back(*dose);
  frame.after.emplace_back(HeatMove{situation.request.tub.bathing_temperature_c});
  return frame;
}

/// Everything that is done to the water, as it is measured out.
Draft measured_draft(const Situation& situation) {
  const Frame frame = frame_of(situation);
  return poured_out(situation, {frame, balanced(situation, frame)});
}

Drift drift_of(const Situation& situation, const Water& final) {
  const SpeciesTable& species = situation.bench.species();
  const double air = species.gas_exchange().air_log10_pco2_atm;
  Water half_way = spend_all_free_chlorine(final);
  half_way.totals[Component::carbonate] -= carbon_surplus(half_way, air, species) / 2;
  const Water at_air = exchange_carbon_dioxide(spend_all_free_chlorine(final), air, species);
  const WaterState state = situation.bench.state(at_air);
  return {situation.bench.ph(half_way), state.ph, state.saturation_index};
}

/// Grams of a product in a draft.
double grams_of(const Situation& situation, const Draft& draft, std::string_view product) {
  double mg_l = 0;
  for (const Move& move : draft) {
    if (const auto* dose = std::get_if<DoseMove>(&move)) {
      if (dose->supply->product().id == product) mg_l += dose->mg_l;
    }
    if (const auto* rounds = std::get_if<RoundsMove>(&move)) {
      if (rounds->dose.supply->product().id == product) mg_l += rounds->dose.mg_l * rounds->times;
    }
  }
  return mg_l * situation.request.tub.volume_l * 1e-3;
}

/// How much to buy: planned again with everything on the shelf that is to be bought.
void size_what_to_buy(const PlanRequest& request, const PlanningData& data,
                      const SpeciesTable& species, std::vector<Unmet>& unmet) {
  PlanRequest with_all = request;
  for (const Unmet& one : unmet) {
    if (!one.remedy || one.remedy->kind != "buy" || one.remedy->product == "sequestrant") continue;
    for (const Product& product : data.products) {
      if (product.id == one.remedy->product) with_all.shelf.push_back({product, {}, {}});
    }
  }
  if (with_all.shelf.size() == request.shelf.size()) return;
  const Situation situation(with_all, data, species);
  const Draft draft = measured_draft(situation);
  for (Unmet& one : unmet) {
    if (!one.remedy || one.remedy->kind != "buy") continue;
    const double grams = grams_of(situation, draft, one.remedy->product);
    if (grams > 0) one.remedy->amount_g = grams;
  }
}

std::vector<Reason> assumed_by(const Situation& situation) {
  std::vector<Reason> assumed = situation.request.assumed;
  const auto append = [&](const std::vector<Reason>& more) {
    assumed.insert(assumed.end(), more.begin(), more.end());
  };
  append(situation.request.tub.assumed);
  append(situation.start.assumed);
  assumed.push_back(reason_of(situation.assumptions.dosing_temperature_c));
  assumed.push_back(reason_of(situation.assumptions.carbon_dioxide_lost_per_wait));
  if (sanitizer_dose(situation)) {
    assumed.push_back(reason_of(situation.assumptions.fresh_water_demand_mg_l));
  }
  for (const auto& [reading, target] : situation.targets.readings) {
    if (!target.stop_is_assumed || !situation.gate.readings.contains(reading)) continue;
    assumed.push_back(
        {"stop_assumed", {{"reading", std::string(key_of(reading))}, {"value", *target.stop}}});
  }
  return assumed;
}

Plan described(const Situation& situation) {
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
  plan.gate_source = situation.gate.source;
  plan.retest_with = request.retest_with.id;
  plan.start = situation.start.state;
  plan.measured = situation.start.measured;
  plan.hazards = dangerous_pairs(request.shelf, situation.data.hazard_rules);
  plan.assumed = assumed_by(situation);
  if (situation.mildest(Purpose::hold_metals) != nullptr) plan.held = metals_to_hold(situation);
  return plan;
}

}  // namespace

Plan make_plan(const PlanRequest& request, const PlanningData& data, const SpeciesTable& species) {
  const Situation situation(request, data, species);
  const Draft draft = measured_draft(situation);
  const Water final = situation.bench.after(situation.start.water, draft);
  Plan plan = described(situation);
  plan.steps = steps_of(situation, draft);
  wait_for_partners(plan.steps, plan.hazards);
  plan.final = situation.bench.state(final);
  plan.final_range = situation.uncertainty().ranges(draft);
  plan.drift = drift_of(situation, final);
  plan.unmet = unmet_of(situation, plan.final);
  size_what_to_buy(request, data, species, plan.unmet);
  if (request.second_source) {
    plan.second_source = start_water(*request.second_source, data, species).state;
  }
  plan.sources = citations(situation, plan);
  return plan;
}

}  // namespace tub
