#include "chemistry/speciate.h"

#include "chemistry/solve.h"

namespace tub::chemistry {

Speciation speciate(const Water& water, const SpeciesTable& table) {
  MassBalance balance(water, table, {});
  balance.start_from_scratch();
  return balance.result(solve(balance));
}

Speciation speciate(const Water& water, const SpeciesTable& table, const Speciation& near) {
  MassBalance balance(water, table, {});
  balance.start_near(near);
  return balance.result(solve(balance));
}

}  // namespace tub::chemistry
