// Waters one after another, mostly alike: each is solved from where the last one was.
#pragma once

#include <memory>

#include "chemistry/speciate.h"

namespace tub::chemistry {

class WarmBalance;

/// The same answers as from scratch, to the last digits, in less time. For one thread.
class SpeciationSeries {
 public:
  /// REQUIRES: the table outlives this.
  explicit SpeciationSeries(const SpeciesTable& table);
  ~SpeciationSeries();

  /// Throws: Error as speciate
  Speciation species(const Water& water);
  double ph(const Water& water);
  /// As exchange_carbon_dioxide.
  Water in_air(const Water& water, double log10_pco2_atm);

 private:
  const SpeciesTable* table_;
  std::unique_ptr<WarmBalance> closed_;
  std::unique_ptr<WarmBalance> in_air_;
};

}  // namespace tub::chemistry
