// Whether, and how much of, a second source makes a better plan.
#pragma once

#include <optional>

#include "planning/situation.h"
#include "planning/water/mixture.h"

namespace tub::planning {

/// The waters of a request: the one that the plan begins with, and another to mix it with.
struct Waters {
  StartWater first;
  std::optional<StartWater> second;
};
Waters waters_of(const PlanRequest& request, const PlanningData& data, const SpeciesTable& species);

/// The first water with so much of the second in it.
StartWater refilled(const Waters& waters, const Refill& refill, const PlanningData& data,
                    const SpeciesTable& species);

/// The share of the second source that makes the best plan, in steps that can be measured; none
/// where no share betters it.
///
/// At a fill any betterment counts, the mixing itself as one addition. In a full tub only what
/// nothing on the shelf can reach is worth draining for, and then as little as does it.
Refill best_refill(const PlanRequest& request, const PlanningData& data,
                   const SpeciesTable& species, const Waters& waters);

/// Inside its band after the draft, but not with its whole 90 % range where that would fit.
bool is_doubtful(const Situation& situation, Reading reading, const Draft& draft);

/// Shares that can be measured, rising: in steps, and from `most_replaced` on only all of it.
std::vector<double> refill_shares(const Assumptions& assumptions, bool water_is_in_tub);

}  // namespace tub::planning
