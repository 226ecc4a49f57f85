// Where a dose aims, why there, and how much product that asks for.
#pragma once

#include <string>

#include "why/pours.h"

namespace tub::why {

class Asking;

/// The unrounded dose, mg of product per kg of water, from its aim.
std::string asked_mg_l(Asking& asking, const DosePlace& at, double mg_l);

/// The aim of a reading, as the plan came to it: the ideal, an edge and the reach of the 90 %
/// interval, the middle, or as far as there was room.
/// step: whose aim it is, for the identifiers; index: the draft after whose moves it holds
std::string aim_node(Asking& asking, const std::string& step, Reading reading, double aim,
                     const Draft& whole);

/// A band's end as the goal has it: the set's, or the gate's for a sanitizer.
std::string goal_end(Asking& asking, Reading reading, const char* end);

}  // namespace tub::why
