#include "chemistry/speciation_series.h"

#include <array>
#include <cmath>

#include "chemistry/operations.h"
#include "chemistry/warm_balance.h"

namespace tub::chemistry {

SpeciationSeries::SpeciationSeries(const SpeciesTable& table)
    : table_(&table),
      closed_(std::make_unique<WarmBalance>(table)),
      in_air_(std::make_unique<WarmBalance>(table)) {}

SpeciationSeries::~SpeciationSeries() = default;

Speciation SpeciationSeries::species(const Water& water) {
  const MassBalance& balance = closed_->solved(water, {});
  return balance.result(closed_->steps());
}

double SpeciationSeries::ph(const Water& water) {
  return -closed_->solved(water, {}).log_activity(Component::alkalinity) / std::log(10.0);
}

Water SpeciationSeries::in_air(const Water& water, double log10_pco2_atm) {
  const double log_k = table_->phase("carbon_dioxide").log_k.at(water.temperature);
  const std::array<Imposed, 1> imposed = {
      {{Component::carbonate, std::log(10.0) * (log10_pco2_atm - log_k)}}};
  Water result = water;
  result.totals[Component::carbonate] = in_air_->solved(water, imposed).held(Component::carbonate);
  return result;
}

}  // namespace tub::chemistry
