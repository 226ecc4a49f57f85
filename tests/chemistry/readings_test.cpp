// What kits and meters show beside the totals: titration, conductivity, spread of constants.
#include <catch2/catch.hpp>
#include <cmath>

#include "base/error.h"
#include "chemistry/conductivity.h"
#include "chemistry/derivatives.h"
#include "chemistry/titration.h"
#include "random_water.h"
#include "reference_table.h"

using namespace tub;
using namespace tub::chemistry;
using reference::species;

namespace {

Readings tub_readings() {
  Readings readings;
  readings.temperature_c = 25;
  readings.ph = 7.5;
  readings.total_alkalinity_mg_l = 80;
  readings.calcium_hardness_mg_l = 150;
  readings.chloride_mg_l = 250;
  readings.free_chlorine_mg_l = 3;
  return readings;
}

Water tub_water(double cyanuric_acid) {
  Readings readings = tub_readings();
  readings.cyanuric_acid_mg_l = cyanuric_acid;
  return water_from_readings(readings, Balance::sodium, species());
}

double conductivity(const char* salt, double mol_kg) {
  const double mg_l = mol_kg * species().compound(salt).molar_mass * 1e3;
  const Water water = add(Water{}, salt, mg_l, species());
  return conductivity_us_cm(speciate(water, species()), species());
}

}  // namespace

TEST_CASE("a titration to pH 4.5 finds nearly the charge-balance alkalinity") {
  Readings readings = tub_readings();
  readings.free_chlorine_mg_l = 0;
  const Water water = water_from_readings(readings, Balance::sodium, species());
  const double found = titrated_alkalinity_mg_l(water, Dechlorination::none, 4.5, species());
  // At 4.5 the bicarbonate that is left takes about as much acid as the free acid is over.
  CHECK(found == Approx(80).margin(1.5));
  CHECK(titrated_alkalinity_mg_l(water, Dechlorination::none, 4.3, species()) > found);
  CHECK_THROWS_AS(titrated_alkalinity_mg_l(water, Dechlorination::none, 9, species()), Error);
}

TEST_CASE("thiosulfate shifts a titration by one equivalent a mole, or by one and a half") {
  const Water water = tub_water(30);
  const auto titrated = [&](Dechlorination way) {
    return titrated_alkalinity_mg_l(water, way, 4.5, species());
  };
  const double moles = water.totals[Component::chlorine];
  CHECK(titrated(Dechlorination::to_tetrathionate) - titrated(Dechlorination::to_sulfate) ==
        Approx(2.5 * moles * 50043).epsilon(1e-3));
}

TEST_CASE("a kit for bromine that shows chlorine") {
  // 2.25 in the trade; 159.808 / 70.9 by molar mass.
  CHECK(bromine_from_chlorine_reading(2) == Approx(2 * 2.254).epsilon(1e-3));
  CHECK(chlorine_reading_of_bromine(bromine_from_chlorine_reading(1.7)) == Approx(1.7));
}

TEST_CASE("the conductivity of salt solutions is that of the handbook") {
  // Equivalent conductivities at 25 °C, CRC Handbook of Chemistry and Physics (from memory):
  // NaCl 123.7, 118.4, 106.7 at 0.001, 0.01, 0.1 mol/L; CaCl2 (half) 120.3 and 102.4 at 0.005
  // and 0.05 mol/L.
  CHECK(conductivity("NaCl", 0.001) == Approx(123.7).epsilon(0.02));
  CHECK(conductivity("NaCl", 0.01) == Approx(1184).epsilon(0.02));
  CHECK(conductivity("NaCl", 0.1) == Approx(10670).epsilon(0.02));
  CHECK(conductivity("CaCl2", 0.005) == Approx(1203).epsilon(0.02));
  CHECK(conductivity("CaCl2", 0.05) == Approx(10240).epsilon(0.03));
}

TEST_CASE("conductivity rises by about 2 % a degree, and back") {
  const Temperature hot = celsius(38);
  CHECK(conductivity_at(1000, hot, species()) == Approx(1000 * (1 + 0.0191 * 13)));
  CHECK(conductivity_at_25(conductivity_at(1000, hot, species()), hot, species()) == Approx(1000));
}

TEST_CASE("solids over conductivity lie between the two scales of meters") {
  // 0.5 (sodium chloride scale) to 0.7 (mixed salts): common practice, from memory. Waters rich in
  // sulfate or bicarbonate go a little above.
  for (const reference::Row& row : reference::rows("speciation")) {
    const Water water = reference::water(row);
    const Speciation found = speciate(water, species());
    const double ratio =
        read(water, found, species()).dissolved_solids_mg_l / conductivity_us_cm(found, species());
    CHECK(ratio > 0.45);
    CHECK(ratio < 0.95);
  }
}

TEST_CASE("the slope by a constant is that of a changed constant") {
  // HOCl alone: at fixed totals, d ln(OCl/HOCl) = ln 10 d log K + ln 10 d pH.
  const Water water = tub_water(0);
  const Derivatives derivatives(water, species());
  const WaterState slope = derivatives.by_constant(species().species_index("OCl-"));
  const WaterState state = read(water, species());
  const double relative = slope.ocl_mg_l / state.ocl_mg_l - slope.hocl_mg_l / state.hocl_mg_l;
  CHECK(relative == Approx(std::log(10.0) * (1 + slope.ph)).epsilon(1e-4));
  CHECK(slope.ocl_mg_l == Approx(-slope.hocl_mg_l).epsilon(1e-6));
}

TEST_CASE("HOCl beside cyanurate is known to about a third, and worse when hot") {
  // The later constants of Wahman (2018, 2019) differ from the 1974 set by 0.09 and 0.14.
  const auto relative = [](const Water& water) {
    const Speciation found = speciate(water, species());
    return constant_spread(water, found, species()).hocl_mg_l /
           read(water, found, species()).hocl_mg_l;
  };
  CHECK(relative(tub_water(50)) > 0.2);
  CHECK(relative(tub_water(50)) < 0.6);
  CHECK(relative(heat(tub_water(50), celsius(38))) > 1.3 * relative(tub_water(50)));
  CHECK(relative(tub_water(0)) < 0.05);
}

TEST_CASE("the index is known to a few hundredths, HOBr to a few per cent") {
  const Water water = add(tub_water(0), "NaBr", 30, species());
  const WaterState spread = constant_spread(water, speciate(water, species()), species());
  CHECK(spread.saturation_index > 0.01);
  CHECK(spread.saturation_index < 0.05);
  CHECK(spread.hobr_fraction > 0.005);
  CHECK(spread.hobr_fraction < 0.05);
  CHECK(spread.ph < 1e-9);
}
