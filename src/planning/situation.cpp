#include "planning/situation.h"

#include <algorithm>
#include <cmath>
#include <tuple>
#include <utility>

namespace tub::planning {
namespace {

/// Products in an order that no shelf changes: identifier, then strength, then density.
std::vector<const ShelfItem*> in_order(const std::vector<ShelfItem>& shelf) {
  std::vector<const ShelfItem*> items;
  for (const ShelfItem& item : shelf) items.push_back(&item);
  const auto key = [](const ShelfItem* item) {
    const Product& product = item->product;
    return std::make_tuple(product.id, -product.strength, product.bulk_density_g_ml.value_or(0),
                           product.density_g_ml.value_or(0), item->dose_ml_per_1000_l.value_or(0),
                           item->dose_g_per_1000_l.value_or(0));
  };
  std::sort(items.begin(), items.end(),
            [&](const ShelfItem* a, const ShelfItem* b) { return key(a) < key(b); });
  return items;
}

/// How harsh a product is to whoever pours it: corrosive, then a liquid, then its signs.
auto harshness(const Product& product) {
  const auto& statements = product.hazard_statements;
  const bool burns = std::find(statements.begin(), statements.end(), "H314") != statements.end();
  return std::make_tuple(burns, product.form == Form::liquid, product.protection.size());
}

/// Share of a spoonful that may be more or less: filling, and how loose the product lies.
double spoon_share(const MeasureSystem& system, const Product& product) {
  double density = 0;
  if (product.form != Form::liquid && product.bulk_density_range_g_ml &&
      product.bulk_density_g_ml) {
    const Range& range = *product.bulk_density_range_g_ml;
    density = (range.high - range.low) / 2 / *product.bulk_density_g_ml;
  }
  return std::hypot(system.spoon_half_width, density);
}

bool is_spooned(const MeasureSystem& system, const Product& product) {
  return !system.spoons.empty() && (product.form == Form::liquid || product.bulk_density_g_ml);
}

/// A plan that goes on aims where it aimed before.
ByReading<Goal> with_aims(ByReading<Goal> goals, const Resumption* resumption) {
  if (resumption == nullptr) return goals;
  for (const auto& [reading, aim] : resumption->aims) {
    const auto goal = goals.find(reading);
    if (goal != goals.end() && goal->second.band.holds(aim)) goal->second.ideal = aim;
  }
  return goals;
}

BathingGate whole_gate(const PlanRequest& request, const PlanningData& data, Reading sanitizer,
                       const StartWater& start) {
  BathingGate gate = bathing_gate(request, data, sanitizer);
  add_ceilings(request, data, start, gate);
  return gate;
}

}  // namespace

Situation::Situation(const PlanRequest& a_request, const PlanningData& some_data,
                     const SpeciesTable& species)
    : Situation(a_request, some_data, species, first_water(a_request, some_data, species), {}) {}

Situation::Situation(const PlanRequest& a_request, const PlanningData& some_data,
                     const SpeciesTable& species, StartWater from, Refill a_refill)
    : request(a_request),
      data(some_data),
      assumptions(some_data.assumptions),
      bench(species),
      start(std::move(from)),
      refill(std::move(a_refill)),
      sanitizer(sanitizer_row(some_data.sanitizers, a_request.sanitizer.kind)),
      gate(whole_gate(a_request, some_data, sanitizer.reading, start)),
      targets(followed_targets(a_request, some_data.assumptions, sanitizer.reading)),
      goals(with_aims(goals_of(targets, gate, sanitizer.reading), a_request.resumption.get())),
      dosing_c(std::min(some_data.assumptions.dosing_temperature_c.value,
                        a_request.tub.bathing_temperature_c)),
      uncertainty_(start, a_request.tub.volume_give_or_take, bench) {
  for (const ShelfItem* item : in_order(request.shelf)) supplies_.emplace_back(*item, species);
  for (const Supply& supply : supplies_) {
    const double spoon = spoon_half_width(supply);
    if (spoon > 0) uncertainty_.spooned(supply, spoon);
  }
}

double Situation::spoon_half_width(const Supply& supply) const {
  if (!is_spooned(request.measure, supply.product())) return 0;
  return spoon_share(request.measure, supply.product());
}

const Goal* Situation::goal(Reading reading) const {
  const auto found = goals.find(reading);
  return found == goals.end() ? nullptr : &found->second;
}

bool Situation::may_use(const Product& product) const {
  const auto& harmed = product.harms_shells;
  if (std::find(harmed.begin(), harmed.end(), request.tub.shell) != harmed.end()) return false;
  if (product.in_group("stabilised_chlorine") && is_full_of_stabiliser(*this)) return false;
  return std::none_of(targets.forbids.begin(), targets.forbids.end(), [&](const auto& forbidden) {
    return product.id == forbidden || product.in_group(forbidden);
  });
}

const Supply* Situation::mildest(Purpose purpose) const {
  const Supply* best = nullptr;
  for (const Supply& supply : supplies_) {
    if (!supply.product().can(purpose) || !may_use(supply.product())) continue;
    if (best == nullptr || harshness(supply.product()) < harshness(best->product())) {
      best = &supply;
    }
  }
  return best;
}

const Supply* Situation::first_of(std::span<const std::string> products) const {
  for (const std::string& id : products) {
    for (const Supply& supply : supplies_) {
      if (supply.product().id == id && may_use(supply.product())) return &supply;
    }
  }
  return nullptr;
}

WaterState Situation::final_state(const Draft& draft) const {
  return bench.state(bench.after(start.water, draft));
}

double Situation::mg_l(const Supply& supply, double size) const {
  return size * supply.mg_per_size() / request.tub.volume_l;
}

double Situation::size(const Supply& supply, double mg_l) const {
  return mg_l * request.tub.volume_l / supply.mg_per_size();
}

}  // namespace tub::planning
