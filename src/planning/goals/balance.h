// pH and alkalinity, solved together on the final water: acid, soda ash, bicarbonate, air.
#pragma once

#include "planning/goals/objective.h"
#include "planning/situation.h"

namespace tub::planning {

/// The moves before and after those that balance the water.
struct Frame {
  Draft before;
  Draft after;

  Draft around(const Draft& balance) const;
};

/// The moves that balance the water, and the pH at which they aim.
struct Balancing {
  Draft moves;
  double ph_aim = 7.5;
};

/// The best moves for pH and alkalinity by the objective; none where both end in their bands.
Balancing balanced(const Situation& situation, const Frame& frame);

/// The dose that pH is left to, the last one for it; null if there is none.
DoseMove* last_for_ph(Draft& moves);

/// The same with the move for pH (a dose, or the release of carbon dioxide) solved again, all
/// others as they are: it makes up for what was rounded. A dose that is not needed is left out.
Balancing with_ph_solved(const Situation& situation, const Frame& frame, const Balancing& balance);

}  // namespace tub::planning
