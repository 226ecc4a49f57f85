// How far each reading of a slip may be off, as waters beside the one that it means.
#pragma once

#include "planning/water/start_water.h"

namespace tub::planning {

/// A key of a slip that is not a key of a water: calcium and magnesium together, as CaCO3.
inline constexpr const char* total_hardness_key = "total_hardness_mg_l";

/// The same of chlorine: free and combined together, as Cl2.
inline constexpr const char* total_chlorine_key = "total_chlorine_mg_l";

/// What a test of the slip says of its own error. REQUIRES: the data it is of outlives it.
struct ErrorRow {
  const TestMethod* method = nullptr;
  const TestRow* row = nullptr;
  Reading of = Reading::ph;  ///< whose row it is: that of free chlorine for a total alone
  double at = 0;             ///< what was read
  /// 90 %, in the reading's unit
  double half_width() const { return row->half_width_at(at); }
};

/// The row that a reading's error comes from; nothing if it was not measured or its method states
/// none.
std::optional<ErrorRow> error_row(Reading reading, const WaterTest& test, const PlanningData& data);

/// Every error of the slip's own tests, and of the assumed share of magnesium.
///
/// state: what the slip was made whole to
std::vector<UncertainReading> start_errors(const WaterTest& test, const Readings& state,
                                           const PlanningData& data, const SpeciesTable& species);

}  // namespace tub::planning
