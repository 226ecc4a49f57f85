// The inverse question: how much of a compound, or of two, brings readings to targets.
#pragma once

#include <vector>

#include "chemistry/operations.h"

namespace tub::chemistry {

/// A reading and where it shall be.
struct DoseTarget {
  double WaterState::*reading = nullptr;
  double value = 0;
};

/// Why no amount reaches a target.
enum class Unreachable {
  moves_away,   ///< every amount leads away from it
  levels_off,   ///< the reading approaches a limit short of it, or turns back
  not_changed,  ///< the compounds do not move that reading
  not_together  ///< no amounts reach the second target, whatever the first does
};

/// An amount of each compound, or the nearest that there is.
struct DoseAnswer {
  bool is_reached = false;
  std::vector<double> mg_l;                   ///< by compound
  std::vector<double> readings;               ///< what they lead to, by target
  Unreachable why = Unreachable::moves_away;  ///< if not reached
};

/// The largest dose that is tried, mg/kg.
inline constexpr double largest_dose_mg_l = 20000;

/// Rows of a table that outlives them.
using Compounds = std::vector<const Compound*>;

/// The smallest dose of one compound that reaches one target, or the doses of two that reach two.
/// Nothing leaves or precipitates.
///
/// REQUIRES: one or two compounds, as many targets
/// Throws:   Error if a target's reading has no value in this water
DoseAnswer dose_to(const Water& water, const Compounds& compounds,
                   const std::vector<DoseTarget>& targets, const SpeciesTable& table);

/// The water with those doses.
Water with_doses(const Water& water, const Compounds& compounds, const std::vector<double>& mg_l);

}  // namespace tub::chemistry
