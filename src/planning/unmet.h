// Targets that a plan does not reach: which, why, and what would mend it.
#pragma once

#include <map>
#include <string>
#include <vector>

#include "planning/plan.h"
#include "planning/situation.h"

namespace tub {

/// Every reading of the final water outside its band, and metals that nothing holds, without
/// remedies that need another plan (what to buy has no amount).
///
/// ranges: the 90 % range of every key of the final water; a share to replace aims by them.
std::vector<Unmet> unmet_of(const Situation& situation, const WaterState& final,
                            const std::map<std::string, Range>& ranges);

}  // namespace tub
