// What would mend the targets that a plan does not reach, with its numbers.
#pragma once

#include <vector>

#include "planning/plan.h"
#include "planning/situation.h"

namespace tub::planning {

/// Puts a remedy on every unmet reading that something mends: what to buy and how much of it, found
/// by planning again with what the shelf lacks; or else another water, and the share of it.
void add_remedies(const Situation& situation, std::vector<Unmet>& unmet);

}  // namespace tub::planning
