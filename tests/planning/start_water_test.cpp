#include "planning/water/start_water.h"

#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>

#include "base/error.h"
#include "sample_job.h"

namespace tub::planning {
namespace {

WaterTest slip() {
  WaterTest test;
  test.temperature_c = 15;
  test.readings = {{"ph", {7.6, "drop_kit"}},
                   {"total_alkalinity_mg_l", {80, "drop_kit"}},
                   {"calcium_hardness_mg_l", {60, "drop_kit"}}};
  return test;
}

StartWater made_whole(const WaterTest& test) {
  return start_water(test, planning_data(), species_table());
}

const Reason* assumed(const StartWater& start, const std::string& code) {
  const auto found = std::find_if(start.assumed.begin(), start.assumed.end(),
                                  [&](const Reason& reason) { return reason.code == code; });
  return found == start.assumed.end() ? nullptr : &*found;
}

}  // namespace

TEST_CASE("the start says the readings of the slip as they were given") {
  const StartWater start = made_whole(slip());
  CHECK(start.state.ph == 7.6);
  CHECK(start.state.total_alkalinity_mg_l == 80);
  CHECK(start.state.temperature_c == 15);
  CHECK(std::count(start.measured.begin(), start.measured.end(), "ph") == 1);
  CHECK(std::count(start.measured.begin(), start.measured.end(), "sulfate_mg_l") == 0);
}

TEST_CASE("magnesium that was not tested is a share of the hardness, and said to be") {
  const StartWater start = made_whole(slip());
  const double share = planning_data().assumptions.magnesium_share.value;
  CHECK(start.state.magnesium_hardness_mg_l /
            (start.state.magnesium_hardness_mg_l + start.state.calcium_hardness_mg_l) ==
        Approx(share));
  CHECK(assumed(start, "magnesium_share") != nullptr);
}

TEST_CASE("with total hardness alone calcium is its assumed share, and a test is asked for") {
  WaterTest test = slip();
  test.readings.erase("calcium_hardness_mg_l");
  test.readings["total_hardness_mg_l"] = {100, "strip"};
  const StartWater start = made_whole(test);
  CHECK(start.state.calcium_hardness_mg_l + start.state.magnesium_hardness_mg_l == Approx(100));
  CHECK(assumed(start, "calcium_not_tested") != nullptr);
}

TEST_CASE("calcium and total hardness leave magnesium as their difference") {
  WaterTest test = slip();
  test.readings["total_hardness_mg_l"] = {100, "drop_kit"};
  CHECK(made_whole(test).state.magnesium_hardness_mg_l == Approx(40));
}

TEST_CASE("dissolved solids that the slip's ions do not explain are common salt") {
  WaterTest test = slip();
  test.readings["dissolved_solids_mg_l"] = {600, "photometer"};
  const StartWater start = made_whole(test);
  CHECK(start.state.dissolved_solids_mg_l == Approx(600).epsilon(0.01));
  CHECK(assumed(start, "dissolved_solids_as_salt") != nullptr);
  test.readings["dissolved_solids_mg_l"] = {20, "photometer"};
  CHECK(assumed(made_whole(test), "dissolved_solids_of_the_ions") != nullptr);
}

TEST_CASE("sodium closes the charge balance, and chloride where sodium would be negative") {
  CHECK(std::get<std::string>(
            assumed(made_whole(slip()), "charge_balance_closed")->parameters[0].second) ==
        "sodium");
  WaterTest hard = slip();
  hard.readings["calcium_hardness_mg_l"] = {300, "drop_kit"};
  const StartWater start = made_whole(hard);
  CHECK(std::get<std::string>(assumed(start, "charge_balance_closed")->parameters[0].second) ==
        "chloride");
  CHECK(start.state.sodium_mg_l == 0);
  CHECK(start.state.chloride_mg_l > 100);
}

TEST_CASE("chlorine that may be combined is taken as combined: it eats the first dose") {
  WaterTest test = slip();
  test.readings["total_chlorine_mg_l"] = {0.8, "strip"};
  const StartWater start = made_whole(test);
  CHECK(start.state.free_chlorine_mg_l == 0);
  CHECK(start.state.combined_chlorine_mg_l == 0.8);
  test.readings["free_chlorine_mg_l"] = {0.3, "strip"};
  CHECK(made_whole(test).state.combined_chlorine_mg_l == Approx(0.5));
}

TEST_CASE("a reading's error becomes two waters, nearer where the whole error is impossible") {
  const StartWater start = made_whole(slip());
  REQUIRE(start.uncertain.size() == 4);  // and the assumed share of magnesium
  for (const UncertainReading& uncertain : start.uncertain) CHECK(uncertain.share == 1);
  WaterTest soft = slip();
  soft.readings["total_alkalinity_mg_l"] = {8, "drop_kit"};  // give or take 10
  const StartWater near_none = made_whole(soft);
  const auto found = std::find_if(
      near_none.uncertain.begin(), near_none.uncertain.end(),
      [](const UncertainReading& one) { return one.reading == Reading::total_alkalinity; });
  REQUIRE(found != near_none.uncertain.end());
  CHECK(found->share < 1);
}

TEST_CASE("calcium of a total alone is as uncertain as the total's test and the share taken") {
  WaterTest test = slip();
  test.readings.erase("calcium_hardness_mg_l");
  test.readings["total_hardness_mg_l"] = {200, "drop_kit"};
  double squares = 0;
  for (const UncertainReading& error : made_whole(test).uncertain) {
    squares += std::pow(
        (calcium_hardness_mg_l(error.high.totals) - calcium_hardness_mg_l(error.low.totals)) / 2,
        2);
  }
  // By hand: 75 % of a drop of 10 mg/L, and 15 % of 200 mg/L, as squares.
  CHECK(std::sqrt(squares) == Approx(std::hypot(7.5, 30)).epsilon(1e-6));
}

TEST_CASE("soft water read as none by a strip has alkalinity above none, never below") {
  WaterTest test = slip();
  test.readings["total_alkalinity_mg_l"] = {5, "strip"};  // give or take 20
  const StartWater start = made_whole(test);
  const auto found = std::find_if(
      start.uncertain.begin(), start.uncertain.end(),
      [](const UncertainReading& one) { return one.reading == Reading::total_alkalinity; });
  REQUIRE(found != start.uncertain.end());
  CHECK(found->is_cut);
  CHECK(total_alkalinity_mg_l(found->low.totals) >= 0);
}

TEST_CASE("combined chlorine is as uncertain as two readings of its kit, a total alone as one") {
  const auto more_at_high = [](const WaterTest& test) {
    for (const UncertainReading& error : made_whole(test).uncertain) {
      if (error.reading == Reading::combined_chlorine) {
        return read(error.high, species_table()).combined_chlorine_mg_l;
      }
    }
    return 0.0;
  };
  WaterTest test = slip();
  CHECK(more_at_high(test) == 0);  // not tested: assumed, and said
  test.readings["total_chlorine_mg_l"] = {2.5, "strip"};
  CHECK(more_at_high(test) == Approx(2.5 + 1));  // the strip's step
  test.readings["free_chlorine_mg_l"] = {1, "strip"};
  CHECK(more_at_high(test) == Approx(1.5 + 1.4));  // the root of two squares of a step
}

TEST_CASE("a metal is as uncertain as its test") {
  WaterTest test = slip();
  test.readings["iron_mg_l"] = {0.6, "photometer"};  // a tenth of it
  const auto found = [&](double Readings::*reading, double half_width) {
    for (const UncertainReading& error : made_whole(test).uncertain) {
      const double low = read(error.low, species_table()).*reading;
      const double high = read(error.high, species_table()).*reading;
      if (high == low) continue;
      CHECK((high - low) / (error.share + error.low_share) == Approx(half_width));
      return true;
    }
    return false;
  };
  CHECK(found(&Readings::iron_mg_l, 0.06));
  CHECK_FALSE(found(&Readings::copper_mg_l, 0));
  test.readings["copper_mg_l"] = {0.0, "drop_kit"};
  CHECK(found(&Readings::copper_mg_l, 0.15));
}

TEST_CASE("a water that cannot exist is an error") {
  WaterTest test = slip();
  test.readings["ph"] = {11, "drop_kit"};
  test.readings["total_alkalinity_mg_l"] = {5, "drop_kit"};
  CHECK_THROWS_AS(made_whole(test), Error);
}

}  // namespace tub::planning
