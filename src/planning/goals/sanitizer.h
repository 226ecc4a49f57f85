// The sanitizer: which product makes it, what it needs before, how much of it, what comes after.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "planning/plan.h"
#include "planning/situation.h"

namespace tub::planning {

/// The moves into the gate, the water's own demand included: a bank of bromide where the sanitizer
/// needs one, then what makes the reading, then tablets that keep it up. None if the gate holds the
/// water already, if the shelf cannot make this sanitizer in this water, or if metals are loose in
/// it.
Draft sanitizer_moves(const Situation& situation);

/// Not a dose of tablets that takes days, which comes after everything that is poured.
bool is_quick(const Move& move);

/// Products without which the shelf cannot make the sanitizer, first choices.
std::vector<std::string> sanitizer_lacks(const Situation& situation);

/// What the water eats of the first dose, in the unit of the sanitizer's reading: fresh water's own
/// demand, and what combined chlorine takes.
double sanitizer_demand(const Situation& situation);

/// For dichlor that hands over: to what, and after how many grams; nothing for other sanitizers.
std::optional<HandOver> hand_over(const Situation& situation);

/// The total bromine, mg/L as Br2, once a bank of bromide has taken up the start water's chlorine.
double bromine_from_chlorine_mg_l(const Situation& situation);

/// Bromide and bromine of the start, mg/L as Br2: chlorine that is put in becomes bromine.
double bromide_as_bromine_mg_l(const Situation& situation);
/// Chlorine is asked for, and there is so much bromide that it would all become bromine.
bool bromide_takes_the_chlorine(const Situation& situation);

/// Hours until a sanitizer that is too high has fallen to the upper end of its gate, cover off.
Interval hours_to_fall(const Situation& situation, double from_mg_l, double to_mg_l);

}  // namespace tub::planning
