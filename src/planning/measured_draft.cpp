#include "planning/measured_draft.h"

#include "planning/goals/single_reading.h"
#include "planning/pour_out.h"

namespace tub {
namespace {

/// What is done before and after the water is balanced. Order: common practice, no source.
Frame frame_of(const Situation& situation) {
  Frame frame;
  if (situation.start.state.temperature_c < situation.dosing_c) {
    frame.before.emplace_back(HeatMove{situation.dosing_c});
  }
  if (const auto dose = sequestrant_dose(situation)) frame.before.emplace_back(*dose);
  if (const auto dose = sanitizer_dose(situation)) frame.after.emplace_back(*dose);
  if (const auto dose = calcium_dose(situation, frame.after)) frame.after.emplace_back(*dose);
  frame.after.emplace_back(HeatMove{situation.request.tub.bathing_temperature_c});
  return frame;
}

DraftParts solved_parts(const Situation& situation) {
  const Frame frame = frame_of(situation);
  return {frame, balanced(situation, frame)};
}

}  // namespace

Draft solved_draft(const Situation& situation) { return solved_parts(situation).whole(); }

Draft measured_draft(const Situation& situation) {
  return poured_out(situation, solved_parts(situation));
}

}  // namespace tub
