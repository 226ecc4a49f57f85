// Targets that a plan does not reach: which, why, and what would mend it.
#pragma once

#include <set>
#include <vector>

#include "planning/plan.h"
#include "planning/situation.h"

namespace tub::planning {

/// Every reading of the final water outside its band, and metals that nothing holds, without
/// remedies that need another plan: what to buy has no amount, and no other water is thought of.
/// left_out: readings that a pour would likelier than not take too far
std::vector<Unmet> unmet_of(const Situation& situation, const std::set<Reading>& left_out,
                            const WaterState& final);

}  // namespace tub::planning
