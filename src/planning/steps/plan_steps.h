// The rungs of a plan: from a draft that is measured out to steps with waits, retests and outcomes.
#pragma once

#include <vector>

#include "planning/pours/pour_out.h"

namespace tub::planning {

/// Steps for every move, numbered as on the card.
std::vector<Step> steps_of(const Situation& situation, const Draft& draft);

}  // namespace tub::planning
