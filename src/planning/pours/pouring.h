// What one pour may do to the water, and which reading after a step leads to its target.
#pragma once

#include <optional>

#include "planning/goals/goals.h"
#include "planning/water/draft.h"

namespace tub::planning {

/// How far along a direction (mol/kg of totals per unit) a water has that pH; nothing if it never
/// has. search: the first step to try, and where to give up.
std::optional<double> amount_for_ph(const Water& water, const Totals& direction, double ph,
                                    const Range& search, const Bench& bench);

/// The most of a product, up to `wanted` mg/L, that leaves closed pH inside the window, or no
/// further outside than it is. Of a bank of bromide, a neutral salt, all.
double largest_pour(const Water& water, const Supply& supply, double wanted, const Range& window,
                    const Bench& bench);

/// Hours of jets until the water is down to that carbon dioxide; none where it is already.
Interval jets_hours(const Water& water, double to_log10_pco2_atm, const Bench& bench);

/// A water, and what later steps make of it.
struct Course {
  Water at_step;
  Water final;
};

/// A band of the final water, carried back to the water of a step: the readings there from which
/// the later steps lead to the band's ends, if more or less of `direction` is put in; no end where
/// that reading does not tell how much is in (pH of water that holds next to nothing).
Limits carried_back(Reading reading, const Limits& band, const Course& course,
                    const Totals& direction, const Bench& bench);

}  // namespace tub::planning
