// The water, the tub and the shelf as they are judged to be after retests.
#pragma once

#include <array>

#include "planning/retests/evidence.h"

namespace tub::planning {

/// Readings that a plan foretells.
inline constexpr std::array foretold_readings = {Reading::ph,
                                                 Reading::total_alkalinity,
                                                 Reading::calcium_hardness,
                                                 Reading::free_chlorine,
                                                 Reading::total_bromine,
                                                 Reading::cyanuric_acid};

/// What the rest of a plan is made of.
struct JudgedTub {
  PlanRequest request;
  StartWater start;
};

/// The likeliest water, with errors that belong together kept together; volume and strengths as
/// stated unless the readings moved them by more than half of a standard deviation, and then named
/// in `assumed`.
JudgedTub judged_tub(const PlanRequest& stated, const Situation& situation,
                     const Evidence& evidence, const Estimate& estimate);

/// The water at a later visit: what was found, and the rest as the plan left it, named in
/// `assumed`.
///
/// Throws: Error at the report's place if there is no such water
StartWater visited_water(const RetestReport& report, const Situation& situation,
                         const StartWater& left, const PlanningData& data);

/// The 90 % half-width of a reading's own test. REQUIRES: its method shows that reading
double test_half_width(const PlanningData& data, Reading reading, const MeasuredReading& measured,
                       double at);

/// The middle 90 % of what a test should show; no less than nothing of a concentration.
Interval expected_interval(Reading reading, double value, double deviation_below,
                           double deviation_above);

}  // namespace tub::planning
