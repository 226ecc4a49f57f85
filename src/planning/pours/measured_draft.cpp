#include "planning/pours/measured_draft.h"

#include <algorithm>

#include "planning/goals/sanitizer.h"
#include "planning/goals/single_reading.h"
#include "planning/pours/pour_out.h"

namespace tub::planning {
namespace {

/// What is done before and after the water is balanced. Order: common practice, no source.
Frame frame_of(const Situation& situation) {
  Frame frame;
  if (situation.start.state.temperature_c < situation.dosing_c) {
    frame.before.emplace_back(HeatMove{situation.dosing_c});
  }
  if (const auto dose = sequestrant_dose(situation)) frame.before.emplace_back(*dose);
  Draft sanitizer = sanitizer_moves(situation);
  const auto calcium = calcium_dose(situation, sanitizer);
  const auto slow = std::stable_partition(sanitizer.begin(), sanitizer.end(), is_quick);
  frame.after.assign(sanitizer.begin(), slow);
  if (calcium) frame.after.emplace_back(*calcium);
  frame.after.insert(frame.after.end(), slow, sanitizer.end());
  frame.after.emplace_back(HeatMove{situation.request.tub.bathing_temperature_c});
  return frame;
}

DraftParts solved_parts(const Situation& situation) {
  const Frame frame = frame_of(situation);
  return {frame, balanced(situation, frame)};
}

}  // namespace

Draft solved_draft(const Situation& situation) { return solved_parts(situation).whole(); }

PouredOut measured(const Situation& situation) {
  return poured_out(situation, solved_parts(situation));
}

Draft measured_draft(const Situation& situation) { return measured(situation).draft; }

}  // namespace tub::planning
