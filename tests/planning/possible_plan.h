// What a plan may say of a water at all.
#pragma once

#include "planning/plan.h"

namespace tub::planning {

/// Checks that every range, expectation, accepted band and chance of a plan is one that its
/// quantity can take, in order, and that no pour is likelier than not to go too far.
void check_possible(const Plan& plan);

}  // namespace tub::planning
