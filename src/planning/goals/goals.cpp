#include "planning/goals/goals.h"

#include <algorithm>

namespace tub::planning {
namespace {

bool is_sanitizer(Reading reading) {
  return reading == Reading::free_chlorine || reading == Reading::total_bromine;
}

/// Readings that no addition of a startup brings down.
bool only_rises(Reading reading) {
  return reading == Reading::cyanuric_acid || reading == Reading::dissolved_solids ||
         reading == Reading::combined_chlorine;
}

/// What one step of a reading is worth beside the others. Assumption: the divisions of a strip.
double step_of(Reading reading) {
  switch (reading) {
    case Reading::ph:
      return 0.2;
    case Reading::total_alkalinity:
      return 20;
    case Reading::calcium_hardness:
      return 50;
    case Reading::dissolved_solids:
      return 500;
    case Reading::cyanuric_acid:
      return 30;
    default:
      return 1;
  }
}

}  // namespace

TargetSet followed_targets(const PlanRequest& request, const Assumptions& assumptions,
                           Reading sanitizer) {
  TargetSet targets = request.targets;
  std::erase_if(targets.readings, [&](const auto& entry) {
    return is_sanitizer(entry.first) && entry.first != sanitizer;
  });
  if (!request.sanitizer.mineral_cartridge) return targets;
  const auto lower = [&](Reading reading, const Assumed& residual) {
    const auto found = targets.readings.find(reading);
    if (found == targets.readings.end()) return;
    found->second.low = residual.value;
    found->second.ideal = std::nullopt;
  };
  lower(Reading::free_chlorine, assumptions.cartridge_free_chlorine_mg_l);
  lower(Reading::total_bromine, assumptions.cartridge_total_bromine_mg_l);
  return targets;
}

ByReading<Goal> goals_of(const TargetSet& targets, const BathingGate& gate, Reading sanitizer) {
  ByReading<Goal> goals;
  for (const auto& [reading, target] : targets.readings) {
    if (is_sanitizer(reading)) continue;
    Goal goal{{target.low, target.high}, target.ideal};
    if (only_rises(reading)) goal = {{std::nullopt, target.high}, std::nullopt};
    if (goal.band.low || goal.band.high) goals[reading] = goal;
  }
  for (const auto& [reading, range] : gate.readings) {
    Goal& goal = goals[reading];
    goal.band = within_gate(reading == sanitizer ? Limits{} : goal.band, range);
    if (goal.ideal && !goal.band.holds(*goal.ideal)) goal.ideal = std::nullopt;
  }
  return goals;
}

double aim(const Goal& goal, bool from_below, const Reach& reach) {
  const auto& [low, high] = goal.band;
  if (goal.ideal) return *goal.ideal;
  if (!low) return *high - reach.above;
  if (!high) return *low + reach.below;
  const bool fits = reach.below + reach.above <= *high - *low;
  if (!fits) return (*low + *high) / 2;
  return from_below ? *low + reach.below : *high - reach.above;
}

double distance_outside(Reading reading, const Limits& band, double value) {
  const double below = band.low ? *band.low - value : 0;
  const double above = band.high ? value - *band.high : 0;
  return std::max({0.0, below, above}) / step_of(reading);
}

bool is_outside(Reading reading, const Limits& band, double value) {
  return distance_outside(reading, band, value) > on_the_edge;
}

std::set<Reading> outside_bands(const ByReading<Goal>& goals, const WaterState& water) {
  std::set<Reading> outside;
  for (const auto& [reading, goal] : goals) {
    if (is_outside(reading, goal.band, value_of(reading, water))) outside.insert(reading);
  }
  return outside;
}

}  // namespace tub::planning
