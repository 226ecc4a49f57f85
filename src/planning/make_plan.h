// One request in, one plan out: a pure function.
#pragma once

#include "chemistry/species_table.h"
#include "planning/plan.h"
#include "planning/request.h"

namespace tub::planning {

/// The plan that brings this water to its targets, or as near as this shelf can.
///
/// A target that cannot be reached is in `unmet` with its reason and remedy, never an error.
/// With retests in the request it is the rest of the plan, from what they found.
/// Throws: Error if the water cannot exist (the message names the reading at fault), or a retest is
///         at no place of the plan
Plan make_plan(const PlanRequest& request, const PlanningData& data, const SpeciesTable& species);

}  // namespace tub::planning
