// Readings that one product raises and nothing else moves much: sanitizer, calcium; and metals,
// which a sequestrant holds.
#pragma once

#include <optional>

#include "planning/situation.h"

namespace tub {

/// The sanitizer's dose into the gate, the water's own demand included; nothing if the gate holds
/// the water already, or no product of the shelf is the sanitizer.
std::optional<DoseMove> sanitizer_dose(const Situation& situation);

/// The calcium that is missing after these moves; nothing if none is, or none is on the shelf.
std::optional<DoseMove> calcium_dose(const Situation& situation, const Draft& other);

/// The sequestrant's own dose, if a metal reaches its aesthetic limit.
std::optional<DoseMove> sequestrant_dose(const Situation& situation);

/// Metals at or above their aesthetic limits, mg/L.
ByReading<double> metals_to_hold(const Situation& situation);

/// What fresh water eats of the first dose, mg/L: its own demand, and what combined chlorine takes.
double sanitizer_demand(const Situation& situation);

}  // namespace tub
