#include "chemistry/alkalinity_lack.h"

#include <array>
#include <cmath>

#include "chemistry/solve.h"

namespace tub {

double AlkalinityLack::operator()(const Water& water) {
  const std::array<Imposed, 1> imposed = {{{Component::alkalinity, -ph_ * std::log(10.0)}}};
  MassBalance balance(water, *table_, imposed);
  if (last_) {
    balance.start_near(*last_);
  } else {
    balance.start_from_scratch();
  }
  last_ = balance.result(solve(balance));
  return -balance.held(Component::alkalinity) - water.totals[Component::alkalinity];
}

}  // namespace tub
