// The readings that a plan steers by, under the names they have in every file.
#pragma once

#include <array>
#include <map>
#include <optional>
#include <string>
#include <string_view>

#include "base/interval.h"
#include "chemistry/readings.h"

namespace tub::planning {

/// A reading that a test kit shows and a target set may bound. The order is that of every list.
enum class Reading {
  ph,
  total_alkalinity,
  calcium_hardness,
  free_chlorine,
  total_bromine,
  combined_chlorine,
  cyanuric_acid,
  dissolved_solids,
  copper,
  iron,
  manganese,
};

inline constexpr std::array all_readings = {
    Reading::ph,
    Reading::total_alkalinity,
    Reading::calcium_hardness,
    Reading::free_chlorine,
    Reading::total_bromine,
    Reading::combined_chlorine,
    Reading::cyanuric_acid,
    Reading::dissolved_solids,
    Reading::copper,
    Reading::iron,
    Reading::manganese,
};

/// The key in plans and waters: "ph", "total_alkalinity_mg_l", … (pH, or mg/L: alkalinity and
/// hardness as CaCO3, chlorine as Cl2, bromine as Br2).
std::string_view key_of(Reading reading);
/// The name in jobs and target sets: "ph", "total_alkalinity", …
std::string_view name_of(Reading reading);
std::optional<Reading> reading_named(std::string_view name_or_key);
/// The reading of a water, in the unit of its key.
double value_of(Reading reading, const WaterState& state);

template <class T>
using ByReading = std::map<Reading, T>;

}  // namespace tub::planning
