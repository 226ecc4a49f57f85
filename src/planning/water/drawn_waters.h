// Whole waters drawn from every source of error together.
#pragma once

#include <span>
#include <vector>

#include "planning/water/draft.h"
#include "planning/water/spread.h"
#include "planning/water/start_water.h"

namespace tub::planning {

/// A source of error that makes doses larger or smaller: its factors at the ends.
struct DoseError {
  const Supply* only = nullptr;  ///< null: of every dose, as the volume has it
  double low = 1;                ///< at -1 of its half-width; one-sided: at half the loss
  double high = 1;               ///< at 1; at the whole loss
  bool is_one_sided = false;

  /// The factor so many half-widths out: the exponential of a parabola through 1 and both ends, so
  /// that it is above 0 wherever it is asked for.
  double at(double half_widths) const;
};

/// Sources in the order of their effects: first the doses' that come before the start's own, then
/// the start's, then the other doses'.
struct DrawnFrom {
  const StartWater& start;
  std::span<const DoseError> volume;    ///< one, or none
  std::span<const DoseError> supplies;  ///< after the start's own
  std::span<const Move> moves;
};

/// The waters after the moves, as many as are possible: what a slip may mean is water only where
/// no total is less than nothing.
///
/// effects: of each source on the number that the draws are to be even in
std::vector<Water> drawn_waters(const DrawnFrom& from, std::span<const ErrorEffect> effects,
                                const Bench& bench);

}  // namespace tub::planning
