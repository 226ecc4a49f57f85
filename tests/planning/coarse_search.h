// A slow, plain search over a shelf, to hold the planner's answers against.
#pragma once

#include "planning/goals/objective.h"
#include "planning/situation.h"

namespace tub::planning {

/// The best of many drafts from the situation's water, and what it comes to.
struct CoarseBest {
  Draft draft;
  Score score;
};

/// Tries amounts of the shelf's bicarbonate, soda ash and acid on a grid, in three orders, with and
/// without air before the sanitizer and the calcium, acid between two pours of bicarbonate, and
/// acid with air in rounds. Every pour obeys the pH window, as the planner's must.
CoarseBest coarse_best(const Situation& situation);

/// Fewer readings outside: the gate's, then pH, sanitizer and alkalinity, then the others.
bool meets_more(const Score& a, const Score& b);

}  // namespace tub::planning
