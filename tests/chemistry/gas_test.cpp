// Carbon dioxide leaving at a first-order rate.
#include "chemistry/gas.h"

#include <catch2/catch.hpp>
#include <cmath>

#include "base/error.h"
#include "reference_table.h"

using namespace tub;
using namespace tub::chemistry;
using reference::species;

namespace {

Water rich_water() {
  Readings readings;
  readings.temperature_c = 27;
  readings.ph = 7.2;
  readings.total_alkalinity_mg_l = 150;
  return water_from_readings(readings, Balance::sodium, species());
}

}  // namespace

TEST_CASE("after one time constant 1/e of the surplus is left") {
  const double air = species().gas_exchange().air_log10_pco2_atm;
  const Water after = lose_carbon_dioxide(rich_water(), 2, 0.5, species());
  CHECK(carbon_surplus(after, air, species()) ==
        Approx(carbon_surplus(rich_water(), air, species()) * std::exp(-1.0)).epsilon(1e-9));
  CHECK(after.totals[Component::alkalinity] == rich_water().totals[Component::alkalinity]);
}

TEST_CASE("the hours to a pressure lead to that pressure") {
  const Interval rate = species().gas_exchange().jets_on;
  const Interval hours = hours_to_release(rich_water(), -2.6, rate, species());
  CHECK(hours.low < hours.value);
  CHECK(hours.value < hours.high);
  const Water after = lose_carbon_dioxide(rich_water(), hours.value, rate.value, species());
  CHECK(read(after, species()).log10_pco2_atm == Approx(-2.6).margin(1e-6));
}

TEST_CASE("a pressure that lies not between water and air is refused") {
  const Interval rate = species().gas_exchange().jets_on;
  CHECK_THROWS_AS(hours_to_release(rich_water(), -1, rate, species()), Error);
  CHECK_THROWS_AS(hours_to_release(rich_water(), -3.5, rate, species()), Error);
  CHECK_THROWS_AS(lose_carbon_dioxide(rich_water(), -1, 1, species()), Error);
  CHECK_THROWS_AS(lose_carbon_share(rich_water(), 1.1, species()), Error);
}

TEST_CASE("rates are in order, jets above still water above a cover") {
  const GasExchange& gas = species().gas_exchange();
  for (const Interval& rate : {gas.jets_on, gas.jets_off, gas.cover_on}) {
    CHECK(rate.low < rate.value);
    CHECK(rate.value < rate.high);
  }
  CHECK(gas.jets_on.value > gas.jets_off.value);
  CHECK(gas.jets_off.value > gas.cover_on.value);
}
