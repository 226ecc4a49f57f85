// What the final water is judged by: one band a reading, and where in it to aim.
#pragma once

#include <optional>
#include <set>
#include <string>

#include "planning/plan.h"
#include "planning/request.h"
#include "planning/steps/gate.h"

namespace tub::planning {

/// A reading's band, and its ideal where the set names one.
struct Goal {
  Limits band;
  std::optional<double> ideal;
};

/// The set as followed: silent on what the tub is not kept with (bromine in a tub kept with
/// chlorine); a mineral cartridge lowers the sanitizer's band between uses.
TargetSet followed_targets(const PlanRequest& request, const Assumptions& assumptions,
                           Reading sanitizer);

/// pH, alkalinity and hardness are judged by the set's band, as far as the gate lets it reach, the
/// sanitizer by the gate; of what no step can lower, only the upper end counts.
ByReading<Goal> goals_of(const TargetSet& targets, const BathingGate& gate, Reading sanitizer);

/// How far the 90 % interval reaches below and above the predicted value.
struct Reach {
  double below = 0;
  double above = 0;
};

/// Where to aim in a band that is entered from below (or from above): the ideal; else the point
/// nearest that edge whose interval lies inside the band; else the middle.
double aim(const Goal& goal, bool from_below, const Reach& reach);

/// How far a value lies outside a band, in steps that matter alike for every reading (0.2 of pH,
/// 20 mg/L of alkalinity, 50 of hardness, 1 of a sanitizer); 0 inside.
double distance_outside(Reading reading, const Limits& band, double value);

/// A value on its band's edge is inside, whatever its last digits say.
inline constexpr double on_the_edge = 1e-9;
bool is_outside(Reading reading, const Limits& band, double value);

/// The readings of a water that are outside their bands.
std::set<Reading> outside_bands(const ByReading<Goal>& goals, const WaterState& water);

}  // namespace tub::planning
