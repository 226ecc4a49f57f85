// How every reading of a water changes with every total, analytically.
#pragma once

#include "chemistry/operations.h"
#include "chemistry/sensitivity.h"

namespace tub::chemistry {

/// The derivatives of a water's readings, closed, nothing precipitating (equations 9 and 20).
///
/// A component of which there is none is taken as a trace of 1e-12 mol/kg.
class Derivatives {
 public:
  /// REQUIRES: the table outlives this.
  Derivatives(const Water& water, const SpeciesTable& table);

  /// Of what is present only: faster. REQUIRES: the species are those of this water.
  Derivatives(const Water& water, const Speciation& speciation, const SpeciesTable& table);

  /// The change of each reading per mol/kg more of a total; that of temperature_c is 0.
  WaterState by(Component total) const;

  /// The change of each reading per unit of log10 K of the reaction in a species' row.
  WaterState by_constant(std::size_t species) const;

 private:
  WaterState slopes(const Response& response, const Totals& change) const;

  const SpeciesTable& table_;
  Speciation speciation_;
  Sensitivity sensitivity_;
  Response by_alkalinity_;
};

/// How far each reading may be off for the constants alone, at the water's own pH and alkalinity
/// (equation 23): 90 % half-widths, from each constant's own at this temperature, as independent.
WaterState constant_spread(const Water& water, const Speciation& speciation,
                           const SpeciesTable& table);

}  // namespace tub::chemistry
