// What would have to be bought for the targets that a shelf cannot reach.
#pragma once

#include <vector>

#include "planning/make_plan.h"

namespace tub {

/// Plans again with what the shelf lacks put on it, and says of every unmet reading that would then
/// be met, or that asked to buy, what to buy and how much of it the plan takes.
void add_what_to_buy(const PlanRequest& request, const PlanningData& data,
                     const SpeciesTable& species, std::vector<Unmet>& unmet);

}  // namespace tub
