// Calcite that falls out of water.
#pragma once

#include "chemistry/operations.h"

namespace tub::chemistry {

struct Precipitation {
  Water water;
  double moles = 0;  ///< of CaCO3 per kg
};

/// Calcite precipitates, closed to the air, until the saturation index is that asked for.
///
/// Throws: Error if the water has no calcium or no carbonate, or if its index is below that
///         already
Precipitation precipitate(const Water& water, double saturation_index, const SpeciesTable& table);

/// The saturation index alone; minus infinity without calcium or carbonate.
double saturation_index(const Water& water, const SpeciesTable& table);

}  // namespace tub::chemistry
