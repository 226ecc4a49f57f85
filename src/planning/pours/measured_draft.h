// Everything that is done to one water, solved and measured out.
#pragma once

#include "planning/pours/pour_out.h"
#include "planning/situation.h"

namespace tub::planning {

/// Every goal's moves in the trade's order, before anything is rounded.
Draft solved_draft(const Situation& situation);

/// Every goal's moves in the trade's order, as they are measured out.
PouredOut measured(const Situation& situation);
Draft measured_draft(const Situation& situation);

}  // namespace tub::planning
