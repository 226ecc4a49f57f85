// Hours between products that must not meet in the tub.
#pragma once

#include <vector>

#include "planning/plan.h"

namespace tub::planning {

/// Lengthens the wait of the step before a product until every earlier partner of a dangerous pair
/// is `hours_apart` ago, whichever of its pours was the last, and notes it there.
void wait_for_partners(std::vector<Step>& steps, const std::vector<HazardPair>& hazards);

}  // namespace tub::planning
