// How far each reading of a slip may be off, as waters beside the one that it means.
#pragma once

#include "planning/water/start_water.h"

namespace tub::planning {

/// A key of a slip that is not a key of a water: calcium and magnesium together, as CaCO3.
inline constexpr const char* total_hardness_key = "total_hardness_mg_l";

/// Every error of the slip's own tests, and of the assumed share of magnesium.
///
/// state: what the slip was made whole to
std::vector<UncertainReading> start_errors(const WaterTest& test, const Readings& state,
                                           const PlanningData& data, const SpeciesTable& species);

}  // namespace tub::planning
