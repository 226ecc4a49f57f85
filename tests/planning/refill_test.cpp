// A second source: how much of it makes the better plan, and what a plan with it says.
#include "planning/remedies/refill.h"

#include <algorithm>
#include <catch2/catch.hpp>

#include "chemistry/operations.h"
#include "planning/make_plan.h"
#include "sample_job.h"

namespace tub::planning {
namespace {

WaterTest water(double ph, double total_alkalinity, double calcium_hardness) {
  return request_for_water(ph, total_alkalinity, calcium_hardness).water;
}

/// A hard well beside soft rain.
PlanRequest hard_and_soft() {
  PlanRequest request = request_for_water(7.6, 240, 420);
  request.second_source = water(7.0, 20, 15);
  return request;
}

PlanRequest beside_soft_water(double calcium_hardness) {
  PlanRequest request = full_tub(7.6, 110, calcium_hardness);
  request.water.readings["free_chlorine_mg_l"] = {3, "drop_kit"};
  request.water.readings["cyanuric_acid_mg_l"] = {30, "drop_kit"};
  request.second_source = water(7.4, 80, 40);
  return request;
}

const Step* replacing(const Plan& plan) {
  const auto found = std::find_if(plan.steps.begin(), plan.steps.end(), [](const Step& step) {
    return std::holds_alternative<Replace>(step.what);
  });
  return found == plan.steps.end() ? nullptr : &*found;
}

}  // namespace

TEST_CASE("a tap too hard for its band is blended with soft water until it is inside") {
  PlanRequest request = hard_and_soft();
  request.second_source.reset();
  REQUIRE(planned(request).unmet.size() == 1);
  const Plan plan = planned(hard_and_soft());
  CHECK(plan.unmet.empty());
  const Step* step = replacing(plan);
  REQUIRE(step != nullptr);
  // Common practice: calcium hardness 175 to 250 mg/L; 420 (1 - f) + 15 f is inside for f from
  // 0.42 to 0.605.
  const double fraction = std::get<Replace>(step->what).fraction;
  CHECK(fraction >= 0.42);
  CHECK(fraction <= 0.605);
  CHECK(step->number == 1);
  CHECK(std::holds_alternative<FillVessel>(plan.steps.front().what));
  CHECK(plan.steps.front().number == 1);
  CHECK(plan.start.calcium_hardness_mg_l == Approx(420));
  REQUIRE(plan.second_source);
  CHECK(plan.second_source->calcium_hardness_mg_l == Approx(15));
}

TEST_CASE("the water after the fill is the two waters, mixed in that share") {
  const Plan plan = planned(hard_and_soft());
  const Step* step = replacing(plan);
  REQUIRE(step != nullptr);
  const auto made = [](const WaterState& state) {
    return water_from_readings(state, Balance::none, species_table());
  };
  const Water mix =
      blend(made(plan.start), made(*plan.second_source), std::get<Replace>(step->what).fraction);
  const WaterState expected = read(mix, species_table());
  CHECK(step->after->ph == Approx(expected.ph).margin(1e-6));
  CHECK(step->after->total_alkalinity_mg_l == Approx(expected.total_alkalinity_mg_l));
  CHECK(step->after->calcium_hardness_mg_l == Approx(expected.calcium_hardness_mg_l));
}

TEST_CASE("iron that nothing on the shelf holds is thinned below its limit") {
  PlanRequest request = request_for_water(7.5, 120, 210);
  std::erase_if(request.shelf,
                [](const ShelfItem& item) { return item.product.can(Purpose::hold_metals); });
  request.water.readings["iron_mg_l"] = {0.5, "photometer"};
  REQUIRE(planned(request).gate_closed->code == "no_sequestrant_on_shelf");
  request.second_source = water(7.5, 115, 190);
  request.second_source->readings["iron_mg_l"] = {0.0, "photometer"};
  const Plan plan = planned(request);
  CHECK(plan.unmet.empty());
  // Aesthetic limit 0.3 mg/L (US secondary drinking-water standards): more than 0.4 of the other.
  REQUIRE(replacing(plan) != nullptr);
  CHECK(std::get<Replace>(replacing(plan)->what).fraction > 0.4);
}

TEST_CASE("a second source that is no better stays where it is") {
  PlanRequest request = request_for_water(7.5, 120, 210);
  request.second_source = water(8.3, 300, 400);
  CHECK(replacing(planned(request)) == nullptr);
}

TEST_CASE("a blend is as uncertain as both slips") {
  const PlanRequest request = hard_and_soft();
  const Waters waters = waters_of(request, planning_data(), species_table());
  const StartWater half =
      refilled(waters, {0.5, "second_source"}, planning_data(), species_table());
  // Both slips' three readings, and the share itself.
  CHECK(half.uncertain.size() ==
        waters.first.uncertain.size() + waters.second->uncertain.size() + 1);
  const Situation situation(request, planning_data(), species_table(), half,
                            {0.5, "second_source"});
  const Interval hardness =
      situation.uncertainty().spread(Reading::calcium_hardness, {}).interval();
  // A drop kit tells hardness to 10 mg/L: half of each is 5; a share of 0.03 more is 12 of the 405
  // between the waters. Together sqrt(5^2 + 5^2 + 12.15^2) is 14.
  CHECK(hardness.high - hardness.value == Approx(14.06).epsilon(0.02));
}

TEST_CASE("a full tub is drained only for what nothing on the shelf reaches") {
  CHECK(replacing(planned(beside_soft_water(200))) == nullptr);
  const Plan plan = planned(beside_soft_water(420));
  const Step* step = replacing(plan);
  REQUIRE(step != nullptr);
  CHECK(step == &plan.steps.front());
  CHECK(step->number == 1);
  CHECK(plan.unmet.empty());
  // 420 (1 - f) + 40 f is at most 250 for f from 0.447 on, and as little as does it surely.
  const double fraction = std::get<Replace>(step->what).fraction;
  CHECK(fraction >= 0.447);
  CHECK(fraction <= 0.6);
  CHECK(plan.steps.at(1).number == 2);
}

TEST_CASE("too much chlorine is no reason to drain a tub: it falls by itself") {
  PlanRequest request = beside_soft_water(200);
  request.water.readings["free_chlorine_mg_l"] = {14, "drop_kit"};
  CHECK(replacing(planned(request)) == nullptr);
}

TEST_CASE("what was drained is not in the tub's cyanuric acid any more") {
  PlanRequest request = beside_soft_water(200);
  request.targets.readings[Reading::cyanuric_acid].high = 60;
  request.sanitizer.kind = "sodium_hypochlorite";
  request.shelf.push_back(shelf_item("sodium_hypochlorite"));
  request.water.readings["cyanuric_acid_mg_l"] = {150, "drop_kit"};
  const Plan plan = planned(request);
  REQUIRE(replacing(plan) != nullptr);
  CHECK(plan.final.cyanuric_acid_mg_l <= 60);
}

}  // namespace tub::planning
