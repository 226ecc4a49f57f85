// How the species of a water answer a small change of one of its totals.
#pragma once

#include "chemistry/solve.h"

namespace tub::chemistry {

/// What changes per mol/kg more of a total, all others kept (equation 9).
struct Response {
  std::array<double, component_count> log_activity{};  ///< ln of the masters' activities
  std::array<double, max_species> molality{};
  double ionic_strength = 0;
  double ph = 0;
};

/// The linearised mass balances of one water; asked for as many totals as wanted.
class Sensitivity {
 public:
  /// REQUIRES: the species are those of this water; the table outlives this.
  Sensitivity(const Water& water, const Speciation& speciation, const SpeciesTable& table);

  /// REQUIRES: the component is present in the water, or is alkalinity.
  Response to(Component total) const;

  /// What changes if log10 of the constant of one species' reaction is larger by 1, to first order.
  Response to_constant(std::size_t species) const;

  /// The second derivative of pH to two totals (equation 20).
  double ph_curvature(const Response& first, const Response& second) const;

 private:
  // The change of the unknowns and of ionic strength, for changes of the right-hand sides.
  struct Change {
    Vector unknowns{};
    double strength = 0;
  };
  Change change(Vector balances, double strength) const;

  const SpeciesTable& table_;
  MassBalance balance_;
  Linearised here_;  // its by_strength divided by the Jacobian: J^-1 s of equation 8
  Cholesky factor_;
};

}  // namespace tub::chemistry
