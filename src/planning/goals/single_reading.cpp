#include "planning/goals/single_reading.h"

#include <algorithm>

namespace tub {
namespace {

double per_mg(Reading reading, const Supply& supply, const Bench& bench) {
  Water pure;
  pure.totals = supply.per_mg_l();
  return bench.reading(reading, pure);
}

/// The dose that takes a reading from below to its aim. The aim follows from how far the reading
/// may be off, and that from the dose: three times round settles it.
std::optional<DoseMove> dose_from_below(const Situation& situation, DoseMove dose,
                                        const Draft& other) {
  const Reading reading = *dose.goal;
  const Goal* goal = situation.goal(reading);
  const double before =
      situation.bench.reading(reading, situation.bench.after(situation.start.water, other));
  if (goal == nullptr || !goal->band.low || before >= *goal->band.low) return std::nullopt;
  const double each = per_mg(reading, *dose.supply, situation.bench);
  Reach reach;
  for (int i = 0; i < 3; ++i) {
    dose.mg_l = (aim(*goal, true, reach) + dose.spends_mg_l - before) / each;
    Draft whole = other;
    whole.emplace_back(dose);
    const Interval interval = situation.uncertainty().spread(reading, whole).interval();
    reach = {interval.value - interval.low, interval.high - interval.value};
  }
  dose.mg_l = (aim(*goal, true, reach) + dose.spends_mg_l - before) / each;
  return dose;
}

}  // namespace

double sanitizer_demand(const Situation& situation) {
  const Resumption* const resumption = situation.resumption();
  if (resumption != nullptr && resumption->demand_is_met) return 0;
  const Assumptions& assumed = situation.assumptions;
  return assumed.fresh_water_demand_mg_l.value +
         assumed.chlorine_per_combined.value * situation.start.state.combined_chlorine_mg_l;
}

std::optional<DoseMove> sanitizer_dose(const Situation& situation) {
  const Supply* supply = situation.first_of(situation.sanitizer.products);
  if (supply == nullptr) return std::nullopt;
  DoseMove dose{supply, situation.sanitizer.reading, 0, sanitizer_demand(situation)};
  return dose_from_below(situation, dose, {});
}

std::optional<DoseMove> calcium_dose(const Situation& situation, const Draft& other) {
  const Supply* supply = situation.mildest(Purpose::raise_calcium);
  if (supply == nullptr) return std::nullopt;
  return dose_from_below(situation, DoseMove{supply, Reading::calcium_hardness}, other);
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

}  // namespace tub
