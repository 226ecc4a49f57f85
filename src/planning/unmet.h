// Targets that a plan does not reach: which, why, and what would mend it.
#pragma once

#include <vector>

#include "planning/plan.h"
#include "planning/situation.h"

namespace tub {

/// Every reading of the final water outside its band, and metals that nothing holds, without
/// remedies that need another plan: what to buy has no amount, and no other water is thought of.
std::vector<Unmet> unmet_of(const Situation& situation, const WaterState& final);

}  // namespace tub
