// How much alkalinity a water lacks for a pH: the question behind every dose that sets one.
#pragma once

#include <optional>

#include "chemistry/speciate.h"

namespace tub {

/// Nearly a line in every total, where pH itself bends: a search for a dose takes few steps.
class AlkalinityLack {
 public:
  /// REQUIRES: the table outlives this.
  AlkalinityLack(double ph, const SpeciesTable& table) : ph_(ph), table_(&table) {}

  /// mol/kg of alkalinity that the water lacks for the pH, all other totals kept; negative where
  /// its pH is above. Each answer starts from the species of the one before.
  ///
  /// Throws: Error as speciate
  double operator()(const Water& water);

 private:
  double ph_;
  const SpeciesTable* table_;
  std::optional<Speciation> last_;
};

}  // namespace tub
