#include "chemistry/alkalinity_lack.h"

#include <array>
#include <cmath>

#include "chemistry/warm_balance.h"

namespace tub::chemistry {

AlkalinityLack::AlkalinityLack(double ph, const SpeciesTable& table)
    : log_activity_(-ph * std::log(10.0)), balance_(std::make_unique<WarmBalance>(table)) {}

AlkalinityLack::~AlkalinityLack() = default;

double AlkalinityLack::operator()(const Water& water) {
  const std::array<Imposed, 1> imposed = {{{Component::alkalinity, log_activity_}}};
  const MassBalance& balance = balance_->solved(water, imposed);
  return -balance.held(Component::alkalinity) - water.totals[Component::alkalinity];
}

}  // namespace tub::chemistry
