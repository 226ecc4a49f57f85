// Where the figures of a plan are from.
#pragma once

#include <vector>

#include "planning/situation.h"

namespace tub::planning {

/// One entry for the targets, the gate, each product used, the retest and each assumption.
std::vector<Citation> citations(const Situation& situation, const Plan& plan);

}  // namespace tub::planning
