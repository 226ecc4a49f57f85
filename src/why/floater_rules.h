// Tablets in a floater that keep the sanitizer up: how many, what they weigh, what they replace.
#pragma once

#include "planning/water/draft.h"
#include "why/asking.h"

namespace tub::why {

/// The floater that a place's step is about; null if it is about something else.
const FloaterMove* floater_at(const Asking& asking, const Place& place);

/// Their number, by what the water holds and its half-life.
Node count_of_floater(Asking& asking, const Place& place);
/// Their weight when they go in.
Node weight_of_floater(Asking& asking, const Place& place);
/// Figures of the note on its step: "tablets", or "dissolves_g" in a day.
Node note_of_floater(Asking& asking, const Place& place);
/// Bromine that they make in a day, mg/L.
Node replaced_by_floater(Asking& asking);

}  // namespace tub::why
