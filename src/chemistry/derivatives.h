// How every reading of a water changes with every total, analytically.
#pragma once

#include "chemistry/operations.h"
#include "chemistry/sensitivity.h"

namespace tub {

/// The derivatives of a water's readings, closed, nothing precipitating (equations 9 and 20).
///
/// A component of which there is none is taken as a trace of 1e-12 mol/kg.
class Derivatives {
 public:
  /// REQUIRES: the table outlives this.
  Derivatives(const Water& water, const SpeciesTable& table);

  /// The change of each reading per mol/kg more of a total; that of temperature_c is 0.
  WaterState by(Component total) const;

 private:
  Water water_;
  const SpeciesTable& table_;
  Speciation speciation_;
  Sensitivity sensitivity_;
  Response by_alkalinity_;
};

}  // namespace tub
