// A test slip made whole: what was not measured is assumed and named, and how far each reading may
// be off becomes waters.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "chemistry/operations.h"
#include "planning/request.h"

namespace tub {

/// What a reading's error, or that of a share of another water, does to the start water.
struct UncertainReading {
  std::optional<Reading> reading;  ///< none: the share
  Water low;                       ///< with the reading lower by `share` of its 90 % half-width
  Water high;                      ///< and higher
  double share = 1;  ///< 1, or less where the water at the whole half-width cannot exist
};

struct StartWater {
  Water water;
  WaterState state;
  std::vector<std::string> measured;  ///< keys of the state that a test gave
  std::vector<Reason> assumed;
  std::vector<UncertainReading> uncertain;
};

/// REQUIRES: pH, total alkalinity and a hardness are there.
/// Throws: Error if no such water can exist
StartWater start_water(const WaterTest& test, const PlanningData& data,
                       const SpeciesTable& species);

/// An assumption as the plan states it.
Reason reason_of(const Assumed& assumed);

}  // namespace tub
