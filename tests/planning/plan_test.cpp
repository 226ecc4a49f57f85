// A whole plan, from a test slip to the last rung.
#include <catch2/catch.hpp>
#include <cmath>

#include "chemistry/operations.h"
#include "planning/make_plan.h"
#include "sample_job.h"

namespace tub::planning {
namespace {

const Plan& sample_plan() {
  static const Plan plan = planned(sample_request());
  return plan;
}

/// The plan's operations, one after the other, on the readings of its start.
Water replayed(const std::vector<Step>& steps, Water water, double volume_l) {
  for (const Step& step : steps) {
    if (const auto* heating = std::get_if<Heat>(&step.what)) {
      water = heat(water, celsius(heating->to_c));
    }
    if (const auto* addition = std::get_if<Addition>(&step.what)) {
      for (const auto& [formula, grams] : addition->adds_g) {
        water = add(water, formula, grams * 1000 / volume_l, species_table());
      }
      for (const auto& [key, mg_l] : addition->spends) water = spend_free_chlorine(water, mg_l);
    }
    if (const auto* release = std::get_if<ReleaseCarbonDioxide>(&step.what)) {
      water = exchange_carbon_dioxide(water, release->to_log10_pco2_atm, species_table());
    }
    if (const auto* repeat = std::get_if<Repeat>(&step.what)) {
      for (int i = 0; i < repeat->times; ++i) water = replayed(repeat->steps, water, volume_l);
    }
  }
  return water;
}

void check_replay(const Plan& plan) {
  const Water start = water_from_readings(plan.start, Balance::none, species_table());
  const WaterState final = read(replayed(plan.steps, start, plan.volume_l), species_table());
  for (const auto& key : reading_keys) {
    CAPTURE(key.name);
    CHECK(final.*key.member == Approx(plan.final.*key.member).margin(1e-6).epsilon(1e-6));
  }
}

}  // namespace

TEST_CASE("the sample tub is filled, heated, treated in the trade's order and heated again") {
  std::vector<std::string> order;
  for (const Step& step : sample_plan().steps) {
    const auto* addition = std::get_if<Addition>(&step.what);
    order.emplace_back(addition != nullptr ? addition->product : kind_of(step));
  }
  // Order: common practice, no source.
  CHECK(order == std::vector<std::string>{"fill", "heat", "sequestrant", "sodium_bicarbonate",
                                          "dry_acid", "dichlor_dihydrate",
                                          "calcium_chloride_dihydrate", "heat"});
}

TEST_CASE("the sample tub's last water is inside every band and says so") {
  const Plan& plan = sample_plan();
  CHECK(plan.unmet.empty());
  CHECK(plan.final.ph >= 7.4);
  CHECK(plan.final.ph <= 7.6);
  CHECK(plan.final.total_alkalinity_mg_l >= 100);
  CHECK(plan.final.calcium_hardness_mg_l >= 175);
  CHECK(plan.final.free_chlorine_mg_l >= 3);
  CHECK(plan.final.free_chlorine_mg_l <= 5);
}

TEST_CASE("doing a plan's operations by hand gives the water that it states") {
  check_replay(sample_plan());
  check_replay(planned(request_for_water(7.6, 280, 300)));
}

TEST_CASE("calcium waits two hours after bicarbonate, whichever pours are left out") {
  double minutes = 0;
  for (const Step& step : sample_plan().steps) {
    const auto* addition = std::get_if<Addition>(&step.what);
    if (addition == nullptr) continue;
    if (addition->product == "calcium_chloride_dihydrate") break;
    if (addition->product == "sodium_bicarbonate") minutes = 0;
    minutes += addition->portions.front().wait_minutes;
  }
  CHECK(minutes >= 120);
}

TEST_CASE("what a plan leaves of iron, copper and combined chlorine is as sure as their tests") {
  PlanRequest request = sample_request();  // iron of 0.3 mg/L by a photometer, give or take 0.03
  request.water.readings["total_chlorine_mg_l"] = {2.5, "strip"};
  request.water.readings["copper_mg_l"] = {0.01, "photometer"};  // give or take 0.05
  const Plan plan = planned(request);
  const Range& iron = plan.final_range.at("iron_mg_l");
  CHECK(iron.low == Approx(0.27));
  CHECK(iron.high == Approx(0.33));
  const Range& combined = plan.final_range.at("combined_chlorine_mg_l");
  CHECK(combined.low == Approx(1.5));
  CHECK(combined.high == Approx(3.5));
  // Where the test read too much of none, there is none.
  const Range& copper = plan.final_range.at("copper_mg_l");
  CHECK(copper.low == 0);
  CHECK(copper.high == Approx(0.06).epsilon(0.05));
}

}  // namespace tub::planning
