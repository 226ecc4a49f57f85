// What a line of the `water` format may ask for beside a state's own keys.
#pragma once

#include <string>
#include <vector>

#include "chemistry/operations.h"
#include "water/format.h"

namespace tub::water {

/// A water with everything that is known of it.
struct ReadWater {
  const Water& water;
  const Speciation& speciation;
  const WaterState& state;
};

/// A further reading, asked for in `"also"`.
struct WaterExtra {
  std::string name;
  std::string meaning;
  std::string (*as_json)(const ReadWater& water, const WaterTables& tables);
};

/// All of them.
const std::vector<WaterExtra>& water_extras();

/// True if a state's readings hang on constants that are not known well: chlorine beside
/// cyanurate, or bromine. Their spread is then part of the state.
bool needs_spread(const WaterState& state);

/// `{"hocl_mg_l": 0.01, …}`: 90 % half-widths from the constants alone.
std::string spread_as_json(const ReadWater& water, const WaterTables& tables);

}  // namespace tub::water
