// How much alkalinity a water lacks for a pH: the question behind every dose that sets one.
#pragma once

#include <memory>

#include "chemistry/speciate.h"

namespace tub::chemistry {

class WarmBalance;

/// Nearly a line in every total, where pH itself bends: a search for a dose takes few steps.
class AlkalinityLack {
 public:
  /// REQUIRES: the table outlives this.
  AlkalinityLack(double ph, const SpeciesTable& table);
  ~AlkalinityLack();

  /// mol/kg of alkalinity that the water lacks for the pH, all other totals kept; negative where
  /// its pH is above. Each answer starts from the species of the one before.
  ///
  /// Throws: Error as speciate
  double operator()(const Water& water);

 private:
  double log_activity_;  // of H+, natural
  std::unique_ptr<WarmBalance> balance_;
};

}  // namespace tub::chemistry
