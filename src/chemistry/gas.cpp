#include "chemistry/gas.h"

#include <fmt/format.h>

#include <cmath>

#include "base/error.h"

namespace tub::chemistry {
namespace {

double air(const SpeciesTable& table) { return table.gas_exchange().air_log10_pco2_atm; }

}  // namespace

double carbon_surplus(const Water& water, double log10_pco2_atm, const SpeciesTable& table) {
  const Water settled = exchange_carbon_dioxide(water, log10_pco2_atm, table);
  return water.totals[Component::carbonate] - settled.totals[Component::carbonate];
}

Interval hours_to_release(const Water& water, double target_log10_pco2_atm,
                          const Interval& per_hour, const SpeciesTable& table) {
  const Water target = exchange_carbon_dioxide(water, target_log10_pco2_atm, table);
  const double before = carbon_surplus(water, air(table), table);
  const double after = carbon_surplus(target, air(table), table);
  if (!(after / before > 0 && after / before <= 1))
    throw Error(
        Diagnostic{fmt::format("a log10 pCO2 of {} is not on the way from this water to air ({})",
                               target_log10_pco2_atm, air(table)),
                   "",
                   {},
                   "choose a target between the water's own and the air's"});
  const double constant_times_hours = std::log(before / after);
  return {constant_times_hours / per_hour.high, constant_times_hours / per_hour.value,
          constant_times_hours / per_hour.low};
}

Water lose_carbon_dioxide(const Water& water, double hours, double per_hour,
                          const SpeciesTable& table) {
  if (!(hours >= 0 && per_hour >= 0))
    throw Error(Diagnostic{fmt::format("{} hours at {} per hour are impossible", hours, per_hour),
                           "",
                           {},
                           "give numbers that are not negative"});
  return lose_carbon_share(water, -std::expm1(-hours * per_hour), table);
}

Water lose_carbon_share(const Water& water, double share, const SpeciesTable& table) {
  if (!(share >= 0 && share <= 1))
    throw Error(Diagnostic{
        fmt::format("a share is from 0 to 1, found {}", share), "", {}, "write 0.2 for a fifth"});
  Water result = water;
  result.totals[Component::carbonate] -= share * carbon_surplus(water, air(table), table);
  return result;
}

}  // namespace tub::chemistry
