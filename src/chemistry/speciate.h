// From conserved totals to species: the one solver that every table of species shares.
#pragma once

#include <array>

#include "chemistry/species_table.h"
#include "chemistry/water.h"

namespace tub::chemistry {

/// The species of one water. Arrays are indexed as SpeciesTable::species(); a species of which
/// there is none has molality 0.
struct Speciation {
  double ph = 0;
  double ionic_strength = 0;                   ///< mol/kg
  std::array<double, max_species> molality{};  ///< mol/kg
  std::array<double, max_species> log10_gamma{};
  std::array<double, component_count> log_activity{};  ///< ln of the masters' activity; 0 without
  int steps = 0;                                       ///< of Newton's method, all together
};

/// Solves the mass balances of all components that are present.
///
/// Throws: Error naming the total that is negative, not finite, or too concentrated for the
///         activity model (ionic strength above 1 mol/kg)
Speciation speciate(const Water& water, const SpeciesTable& table);

/// The same, started from the species of a similar water: fewer steps, same result.
Speciation speciate(const Water& water, const SpeciesTable& table, const Speciation& near);

}  // namespace tub::chemistry
