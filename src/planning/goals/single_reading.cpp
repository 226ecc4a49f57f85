#include "planning/goals/single_reading.h"

#include "planning/water/roots.h"

namespace tub::planning {
namespace {

Reach reach_of(const Situation& situation, Reading reading, const Draft& whole) {
  const Interval interval = situation.uncertainty().spread(reading, whole).interval();
  return {interval.value - interval.low, interval.high - interval.value};
}

/// The most of a product that is looked at, mg/L: far above what any tub takes.
constexpr double most_mg_l = 1e4;
/// mg/L of a reading to which a dose is solved.
constexpr double reading_tolerance = 1e-10;

}  // namespace

std::optional<DoseMove> dose_into_band(const Situation& situation, DoseMove dose,
                                       const Draft& other) {
  const Reading reading = *dose.goal;
  const Goal* goal = situation.goal(reading);
  const Bench& bench = situation.bench;
  const Water before = bench.after(situation.start.water, other);
  if (goal == nullptr || !goal->band.low || bench.reading(reading, before) >= *goal->band.low) {
    return std::nullopt;
  }
  const auto solve = [&](double wanted) {
    const auto missing = [&](double mg_l) {
      dose.mg_l = mg_l;
      return bench.reading(reading, bench.after(before, Move{dose})) - wanted;
    };
    dose.mg_l = root_from_zero(missing, 1, most_mg_l, reading_tolerance).value_or(0);
  };
  Reach reach;
  // The aim follows from how far the reading may be off, and that from the dose: three times round
  // settles it. An ideal is aimed at however far it may be.
  for (int i = 0; i < 3 && !goal->ideal; ++i) {
    solve(aim(*goal, true, reach));
    Draft whole = other;
    whole.emplace_back(dose);
    reach = reach_of(situation, reading, whole);
  }
  solve(aim(*goal, true, reach));
  if (dose.mg_l <= 0) return std::nullopt;
  return dose;
}

std::optional<DoseMove> calcium_dose(const Situation& situation, const Draft& other) {
  const Supply* supply = situation.mildest(Purpose::raise_calcium);
  if (supply == nullptr) return std::nullopt;
  return dose_into_band(situation, DoseMove{supply, Reading::calcium_hardness}, other);
}

ByReading<double> metals_to_hold(const Situation& situation) {
  ByReading<double> metals;
  for (const auto& [metal, limit] : situation.assumptions.metal_limits) {
    const double found = value_of(metal, situation.start.state);
    if (found >= limit.value) metals[metal] = found;
  }
  return metals;
}

std::optional<DoseMove> sequestrant_dose(const Situation& situation) {
  if (metals_to_hold(situation).empty()) return std::nullopt;
  const Resumption* const resumption = situation.resumption();
  if (resumption != nullptr && resumption->metals_are_held) return std::nullopt;
  const Supply* supply = situation.mildest(Purpose::hold_metals);
  if (supply == nullptr) return std::nullopt;
  const ShelfItem& item = supply->item();
  const double per_1000_l = item.product.form == Form::liquid ? item.dose_ml_per_1000_l.value_or(0)
                                                              : item.dose_g_per_1000_l.value_or(0);
  const double size = per_1000_l * situation.request.tub.volume_l / 1000;
  return DoseMove{supply, std::nullopt, situation.mg_l(*supply, size)};
}

}  // namespace tub::planning
