// Mass balances of one water after another; for use inside the module only.
#pragma once

#include <optional>
#include <span>

#include "chemistry/solve.h"

namespace tub::chemistry {

/// Solves each water from where the last one was, its equations kept where they are the same.
class WarmBalance {
 public:
  /// REQUIRES: the table outlives this.
  explicit WarmBalance(const SpeciesTable& table) : table_(&table) {}

  /// The balances of this water, solved. REQUIRES: the same components imposed each time.
  /// Throws: Error as speciate
  const MassBalance& solved(const Water& water, std::span<const Imposed> imposed);
  /// Newton steps of the last one.
  int steps() const { return steps_; }

 private:
  void prepare(const Water& water, std::span<const Imposed> imposed);

  const SpeciesTable* table_;
  std::optional<MassBalance> balance_;
  int steps_ = 0;
};

}  // namespace tub::chemistry
