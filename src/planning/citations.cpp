#include "planning/citations.h"

#include <algorithm>
#include <set>
#include <string>

namespace tub::planning {
namespace {

Citation cite(std::string id, const Provenance& source) {
  return {std::move(id), source.text, source.is_from_memory()};
}

void products_used(const std::vector<Step>& steps, std::set<std::string>& used) {
  for (const Step& step : steps) {
    if (const auto* addition = std::get_if<Addition>(&step.what)) used.insert(addition->product);
    if (const auto* repeat = std::get_if<Repeat>(&step.what)) products_used(repeat->steps, used);
  }
}

void cite_products(const Situation& situation, const Plan& plan, std::vector<Citation>& all) {
  std::set<std::string> used;
  products_used(plan.steps, used);
  for (const Supply& supply : situation.supplies()) {
    const Product& product = supply.product();
    if (used.erase(product.id) == 0) continue;
    for (const auto& [field, source] : product.sources) {
      all.push_back(cite("products/" + product.id + "/" + field, source));
    }
  }
}

void cite_tests(const TestMethod& method, std::vector<Citation>& all) {
  for (const auto& [reading, row] : method.rows) {
    all.push_back(
        cite("test_methods/" + method.id + "/" + std::string(name_of(reading)), row.source));
  }
}

void cite_assumptions(const Assumptions& assumptions, std::vector<Citation>& all) {
  for (const Assumed* one :
       {&assumptions.dosing_temperature_c, &assumptions.wait_minutes, &assumptions.overshoot_bound,
        &assumptions.pour_ph, &assumptions.carbon_dioxide_lost_per_wait,
        &assumptions.fresh_water_demand_mg_l}) {
    all.push_back(cite("assumptions/" + one->code, one->source));
  }
}

/// Those of the sanitizer, where the plan rests on them.
void cite_sanitizer(const Situation& situation, const Plan& plan, std::vector<Citation>& all) {
  const Assumptions& assumptions = situation.assumptions;
  for (const Assumed* one : {&assumptions.bromide_bank_mg_l, &assumptions.sanitizer_half_life_h}) {
    const bool is_used =
        std::any_of(plan.assumed.begin(), plan.assumed.end(),
                    [&](const Reason& reason) { return reason.code == one->code; });
    if (is_used) all.push_back(cite("assumptions/" + one->code, one->source));
  }
  if (!plan.hand_over) return;
  const Assumed& hand_over = assumptions.hand_over_cyanuric_acid_mg_l;
  all.push_back(cite("assumptions/" + hand_over.code, hand_over.source));
}

}  // namespace

std::vector<Citation> citations(const Situation& situation, const Plan& plan) {
  std::vector<Citation> all;
  const TargetSet& targets = situation.targets;
  all.push_back({"targets", targets.source, targets.from_memory});
  all.push_back(cite("sanitizers/" + situation.sanitizer.id, situation.sanitizer.source));
  const std::vector<Provenance>& gate = situation.gate.sources;
  all.push_back(cite("gate", gate.front()));
  if (gate.size() > 1) all.push_back(cite("gate/ph", gate.back()));
  cite_products(situation, plan, all);
  cite_tests(situation.request.retest_with, all);
  cite_assumptions(situation.assumptions, all);
  cite_sanitizer(situation, plan, all);
  all.push_back({"gas_exchange", situation.bench.species().gas_exchange().rates_source, false});
  return all;
}

}  // namespace tub::planning
