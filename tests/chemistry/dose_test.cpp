// Doses that reach their targets, and what is said of targets that no dose reaches.
#include "chemistry/dose.h"

#include <catch2/catch.hpp>

#include "base/error.h"
#include "chemistry/precipitate.h"
#include "random_water.h"
#include "reference_table.h"

using namespace tub;
using namespace tub::chemistry;
using reference::species;

namespace {

Water tub_water() {
  Readings readings;
  readings.temperature_c = 27;
  readings.ph = 7.5;
  readings.total_alkalinity_mg_l = 80;
  readings.calcium_hardness_mg_l = 150;
  readings.chloride_mg_l = 200;
  return water_from_readings(readings, Balance::sodium, species());
}

DoseAnswer dose(const Water& water, const char* compound, double WaterState::*reading, double to) {
  return dose_to(water, {&species().compound(compound)}, {{reading, to}}, species());
}

}  // namespace

TEST_CASE("a dose found is the dose that was given") {
  Dice dice(7);
  int checked = 0;
  for (int i = 0; i < 400; ++i) {
    const auto water = random_water(dice, species());
    if (!water) continue;
    const char* const acid = dice.unit() < 0.5 ? "NaHSO4" : "HCl";
    const double given = dice.between(0.1, 100);
    const double ph = speciate(add(*water, acid, given, species()), species()).ph;
    const DoseAnswer found = dose(*water, acid, &WaterState::ph, ph);
    REQUIRE(found.is_reached);
    CHECK(found.mg_l[0] == Approx(given).epsilon(1e-6));
    ++checked;
  }
  CHECK(checked > 100);
}

TEST_CASE("two doses found are the two that were given") {
  Dice dice(8);
  for (int i = 0; i < 100; ++i) {
    const double base = dice.between(5, 200), acid = dice.between(5, 100);
    const Water after = add(add(tub_water(), "NaHCO3", base, species()), "NaHSO4", acid, species());
    const WaterState state = read(after, species());
    const DoseAnswer found =
        dose_to(tub_water(), {&species().compound("NaHCO3"), &species().compound("NaHSO4")},
                {{&WaterState::ph, state.ph},
                 {&WaterState::total_alkalinity_mg_l, state.total_alkalinity_mg_l}},
                species());
    REQUIRE(found.is_reached);
    CHECK(found.mg_l[0] == Approx(base).epsilon(1e-5));
    CHECK(found.mg_l[1] == Approx(acid).epsilon(1e-5));
  }
}

TEST_CASE("two readings that both ask for species are met together") {
  const Water after = add(add(tub_water(), "Na2CO3", 6, species()), "CaCl2:2H2O", 90, species());
  const WaterState state = read(after, species());
  const DoseAnswer found = dose_to(
      tub_water(), {&species().compound("CaCl2:2H2O"), &species().compound("Na2CO3")},
      {{&WaterState::ph, state.ph}, {&WaterState::saturation_index, state.saturation_index}},
      species());
  REQUIRE(found.is_reached);
  CHECK(found.mg_l[0] == Approx(90).epsilon(1e-4));
  CHECK(found.mg_l[1] == Approx(6).epsilon(1e-4));
}

TEST_CASE("what no dose reaches is said, with the nearest reading") {
  const DoseAnswer away = dose(tub_water(), "NaHSO4", &WaterState::ph, 7.9);
  CHECK_FALSE(away.is_reached);
  CHECK(away.why == Unreachable::moves_away);
  CHECK(away.readings[0] == Approx(7.5).margin(1e-9));

  const DoseAnswer level = dose(tub_water(), "NaHCO3", &WaterState::ph, 9.5);
  CHECK(level.why == Unreachable::levels_off);
  CHECK(level.readings[0] == Approx(8.05).margin(0.2));

  const DoseAnswer inert = dose(tub_water(), "NaCl", &WaterState::total_alkalinity_mg_l, 100);
  CHECK(inert.why == Unreachable::not_changed);

  const DoseAnswer pair =
      dose_to(tub_water(), {&species().compound("NaHCO3"), &species().compound("Na2CO3")},
              {{&WaterState::ph, 7.8}, {&WaterState::total_alkalinity_mg_l, 60}}, species());
  CHECK(pair.why == Unreachable::not_together);
}

TEST_CASE("a target that is met already takes nothing") {
  const double ph = speciate(tub_water(), species()).ph;
  const DoseAnswer none = dose(tub_water(), "HCl", &WaterState::ph, ph);
  CHECK(none.is_reached);
  CHECK(none.mg_l[0] == 0);
}

TEST_CASE("an index in water without carbonate has no dose") {
  const Water salt = add(Water{}, "NaCl", 100, species());
  CHECK_THROWS_WITH(dose(salt, "CaCl2", &WaterState::saturation_index, 0),
                    Catch::Contains("lacks calcium or carbonate"));
  CHECK_THROWS_WITH(precipitate(salt, 0, species()), Catch::Contains("nothing can precipitate"));
}

TEST_CASE("precipitate takes calcium and carbonate alike, and twice as much alkalinity") {
  const Water before = add(tub_water(), "Na2CO3", 40, species());
  const Precipitation after = precipitate(before, 0.2, species());
  CHECK(saturation_index(after.water, species()) == Approx(0.2).margin(1e-9));
  const Totals change = before.totals - after.water.totals;
  CHECK(change[Component::calcium] == Approx(after.moles));
  CHECK(change[Component::carbonate] == Approx(after.moles));
  CHECK(change[Component::alkalinity] == Approx(2 * after.moles));
  CHECK_THROWS_WITH(precipitate(after.water, 0.5, species()), Catch::Contains("already below 0.5"));
}
