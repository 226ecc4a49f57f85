// Retest and go on: a plan made again from what was found in the tub.
#pragma once

#include <memory>

#include "planning/make_plan.h"
#include "planning/retests/leg.h"

namespace tub::planning {

/// The rest of the plan after the last of the request's retests and visits. What was done before
/// is in `done`, what was found in `found`.
///
/// Every retest moves the one estimate of volume, first readings, strengths and gas that all of
/// them share (docs/planning.md).
/// REQUIRES: the request has retests, in order
/// Throws:   Error with every retest that is at no place of the plan it belongs to, or that no
///           water can show
Plan replanned(const PlanRequest& request, const PlanningData& data, const SpeciesTable& species);

/// What the steps of a request's plan are made of: after retests, of what is left to do.
/// Throws: as above
std::shared_ptr<const Leg> leg_to_do(const PlanRequest& request, const PlanningData& data,
                                     const SpeciesTable& species);

}  // namespace tub::planning
