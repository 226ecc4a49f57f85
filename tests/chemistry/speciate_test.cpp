// What the solver does at the edges: pure water, absent components, impossible totals.
#include <catch2/catch.hpp>
#include <cmath>
#include <limits>

#include "base/error.h"
#include "reference_table.h"

using namespace tub;
using namespace tub::chemistry;
using reference::species;

namespace {

std::string complaint(const Water& water) {
  try {
    speciate(water, species());
    return "";
  } catch (const Error& error) {
    return error.diagnostics().front().message;
  }
}

}  // namespace

TEST_CASE("pure water is neutral") {
  // pKw 13.995 at 25 °C: Standard Methods 2330's table has 13.99 (from memory).
  CHECK(speciate(Water{}, species()).ph == Approx(6.9977).margin(0.001));
}

TEST_CASE("distilled water of pH 7 is water, though 0.0001 mg/L short of alkalinity") {
  Readings readings;
  readings.ph = 7;
  const Water water = water_from_readings(readings, Balance::sodium, species());
  CHECK(water.totals[Component::carbonate] == 0);
  const WaterState state = read(water, species());
  CHECK(state.ph == Approx(7).margin(1e-9));
  CHECK(state.total_alkalinity_mg_l == Approx(0).margin(0.01));
}

TEST_CASE("calcite in water in equilibrium with air is at pH 8.28") {
  // Textbook: pCO2 10^-3.5, 25 °C, pH 8.28 and 0.491 mmol/kg of calcium.
  Water water;
  water.totals[Component::calcium] = 0.491e-3;
  water.totals[Component::alkalinity] = 2 * 0.491e-3;
  const WaterState state = read(exchange_carbon_dioxide(water, -3.5, species()), species());
  CHECK(state.ph == Approx(8.28).margin(0.01));
  CHECK(state.saturation_index == Approx(0).margin(0.02));
}

TEST_CASE("a solution of bicarbonate alone is near pH 8.3") {
  const Water water = add(Water{}, "NaHCO3", 84.006, species());
  CHECK(speciate(water, species()).ph == Approx(8.27).margin(0.05));
}

TEST_CASE("what is not there has no species and no index") {
  const Water water = add(Water{}, "NaCl", 100, species());
  const WaterState state = read(water, species());
  CHECK(state.inorganic_carbon_mmol_kg == 0);
  CHECK(state.saturation_index == -std::numeric_limits<double>::infinity());
  CHECK(state.log10_pco2_atm == -std::numeric_limits<double>::infinity());
}

TEST_CASE("a total that cannot be is named") {
  Water water;
  water.totals[Component::carbonate] = -1e-3;
  CHECK(complaint(water) == "the total of carbonate is impossible: -1 mmol/kg");
  water.totals[Component::carbonate] = std::nan("");
  CHECK(complaint(water) == "the total of carbonate is impossible: not finite mmol/kg");
  water.totals[Component::carbonate] = 0;
  water.totals[Component::sodium] = 3;
  water.totals[Component::chloride] = 3;
  CHECK(complaint(water) ==
        "the water is too salty for the activity model: ionic strength 3.00 mol/kg, most of it "
        "from the total of sodium; at most 1 is possible");
}

TEST_CASE("readings that cannot be together are refused with the reason") {
  Readings readings;
  readings.ph = 10;
  readings.total_alkalinity_mg_l = 2;
  CHECK_THROWS_WITH(water_from_readings(readings, Balance::sodium, species()),
                    Catch::Contains("inorganic carbon would be negative: at pH 10 and 25 °C"));
  readings.ph = 4.2;
  readings.total_alkalinity_mg_l = 400;
  CHECK_THROWS_WITH(water_from_readings(readings, Balance::sodium, species()),
                    Catch::Contains("inorganic carbon would boil off"));
  readings.ph = 7.5;
  readings.calcium_hardness_mg_l = 500;
  CHECK_THROWS_WITH(water_from_readings(readings, Balance::sodium, species()),
                    Catch::Contains("mg/L of sodium") && Catch::Contains("chloride instead"));
  readings.sodium_mg_l = -1;
  CHECK_THROWS_WITH(water_from_readings(readings, Balance::none, species()),
                    Catch::Contains("the sodium is impossible: -1 mg/L"));
}

TEST_CASE("with all activity coefficients 1, pH follows the constants alone") {
  Water water = add(Water{}, "NaHCO3", 84.006, species());
  water.activities = Activities::ideal;
  const Speciation found = speciate(water, species());
  const std::size_t acid = species().species_index("CO2");
  const std::size_t base = species().species_index("HCO3-");
  // Henderson and Hasselbalch, with pK1 6.3519 of Plummer & Busenberg at 25 °C.
  CHECK(found.ph ==
        Approx(6.3519 + std::log10(found.molality[base] / found.molality[acid])).margin(1e-4));
}
