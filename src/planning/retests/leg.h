// A plan between two retests: what it was made of, and each step beside its move.
#pragma once

#include <optional>
#include <vector>

#include "planning/plan.h"
#include "planning/remedies/refill.h"

namespace tub::planning {

/// Not copied or moved: its draft points into its situation, and that to its request.
struct Leg {
  Leg(PlanRequest a_request, const PlanningData& data, const SpeciesTable& species);
  Leg(const Leg&) = delete;
  Leg& operator=(const Leg&) = delete;

  const PlanRequest request;
  const Waters waters;
  const Refill refill;
  const Situation situation;
  const Draft draft;
  const std::vector<Step> steps;

  /// Steps before the first move: the fill, and another water put in.
  std::size_t steps_before_moves() const { return steps.size() - draft.size(); }
  /// The other water of that step, if it puts one in.
  const Water* other_water(const Step& step) const;
  int last_number_done() const;
  /// What was interrupted before this plan, if this step goes on with it.
  std::optional<InterruptedStep> continued_by(const Step& step) const;
};

/// How far a plan is done: every step before `step`, and of that one so much.
struct PlaceInPlan {
  std::size_t step = 0;
  std::optional<int> rounds;  ///< whole ones, of a repeat
  std::optional<int> pours;   ///< of an addition, or of the round after those; none: all
};

/// Where a report was taken; nothing if the plan stands there already.
///
/// Throws: Error at the report's own place if this plan has no such step, pour or round
std::optional<PlaceInPlan> place_of(const RetestReport& report, const Leg& leg);

/// The end of the plan.
PlaceInPlan end_of(const Leg& leg);

/// A step of which only so much was done, as it then stands among those that are done.
Step done_part(const Step& step, const PlaceInPlan& place);

/// Whether more of the step may follow.
bool is_interrupted(const Step& step, const PlaceInPlan& place);

}  // namespace tub::planning
