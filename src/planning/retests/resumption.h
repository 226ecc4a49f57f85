// Where a plan goes on from, once part of it is done and the water was tested again.
#pragma once

#include <optional>
#include <string>

#include "planning/water/start_water.h"

namespace tub::planning {

/// A step of which only the first pour, or some rounds, are done.
struct InterruptedStep {
  std::string product;
  std::optional<Reading> reading;
  int pours_done = 0;   ///< of an addition
  int rounds_done = 0;  ///< of a repeat
};

/// What a plan starts from instead of a test slip.
struct Resumption {
  StartWater start;     ///< as it is judged to be
  int last_number = 0;  ///< of the rungs that are done
  std::optional<InterruptedStep>
      interrupted;  ///< the rung of that number, if more of it may follow
  /// Where the plan aimed, for every reading that it put something in for: it goes on to the same
  /// water, although what is known of the tub is closer now.
  ByReading<double> aims;
  bool demand_is_met = false;    ///< the fresh water's own, by the sanitizer that is in
  bool metals_are_held = false;  ///< the sequestrant is in
  bool floater_is_in = false;    ///< with the tablets that keep the sanitizer up
};

/// The water that a plan begins with: of its test slip, or as it is judged to be.
/// Throws: Error if no such water can exist
StartWater first_water(const PlanRequest& request, const PlanningData& data,
                       const SpeciesTable& species);

}  // namespace tub::planning
