// Readings that one product raises and nothing else moves much: calcium; and metals, which a
// sequestrant holds.
#pragma once

#include <optional>

#include "planning/situation.h"

namespace tub::planning {

/// The dose that takes its goal's reading from below to where its band is aimed at, after these
/// moves; nothing if the band holds the water already, or if no dose takes it there.
std::optional<DoseMove> dose_into_band(const Situation& situation, DoseMove dose,
                                       const Draft& other);

/// The calcium that is missing after these moves; nothing if none is, or none is on the shelf.
std::optional<DoseMove> calcium_dose(const Situation& situation, const Draft& other);

/// The sequestrant's own dose, if a metal reaches its aesthetic limit.
std::optional<DoseMove> sequestrant_dose(const Situation& situation);

/// Metals at or above their aesthetic limits, mg/L.
ByReading<double> metals_to_hold(const Situation& situation);

}  // namespace tub::planning
