#include "planning/goals/goals.h"

#include <catch2/catch.hpp>

#include "planning/retests/retest.h"
#include "sample_job.h"

namespace tub::planning {

TEST_CASE("an aim is the ideal where the set names one") {
  CHECK(aim({{80, 120}, 100}, true, {30, 30}) == 100);
}

TEST_CASE("else the point nearest the edge entered whose interval lies inside the band") {
  const Goal alkalinity{{100, 150}, std::nullopt};
  CHECK(aim(alkalinity, true, {10, 12}) == 110);
  CHECK(aim(alkalinity, false, {10, 12}) == 138);
}

TEST_CASE("else the middle") { CHECK(aim({{7.4, 7.6}, {}}, false, {0.15, 0.15}) == 7.5); }

TEST_CASE("a band that is open is entered as far as its interval needs") {
  CHECK(aim({{200, {}}, {}}, true, {15, 20}) == 215);
  CHECK(aim({{{}, 150}, {}}, false, {15, 20}) == 130);
}

TEST_CASE("a private tub has the authorities' gate where its set would let people in at less") {
  const PlanRequest request = sample_request();
  const BathingGate gate = bathing_gate(request, planning_data(), Reading::free_chlorine);
  // Source: UK HSE HSG282 (2017): free chlorine 3 to 5 mg/L.
  CHECK(gate.readings.at(Reading::free_chlorine) == Range{3, 5});
  // Source: CDC, advice for home hot tubs: pH 7.2 to 7.8.
  CHECK(gate.readings.at(Reading::ph) == Range{7.2, 7.8});
}

TEST_CASE("a set that asks for more keeps its own gate") {
  PlanRequest request = sample_request();
  request.targets = target_set("ca_nwt");
  const BathingGate gate = bathing_gate(request, planning_data(), Reading::free_chlorine);
  // Source: Northwest Territories pool regulations: 5 to 10 mg/L in hot tubs.
  CHECK(gate.readings.at(Reading::free_chlorine) == Range{5, 10});
}

TEST_CASE("a mineral cartridge lowers what is kept between uses, never the gate") {
  PlanRequest request = sample_request();
  request.sanitizer.mineral_cartridge = true;
  const TargetSet targets =
      followed_targets(request, planning_data().assumptions, Reading::free_chlorine);
  CHECK(targets.readings.at(Reading::free_chlorine).low == 0.5);
  const BathingGate gate = bathing_gate(request, planning_data(), Reading::free_chlorine);
  CHECK(gate.readings.at(Reading::free_chlorine) == Range{3, 5});
}

TEST_CASE("a set is silent on the sanitizer that a tub is not kept with") {
  const Assumptions& assumptions = planning_data().assumptions;
  const TargetSet chlorine =
      followed_targets(sample_request(), assumptions, Reading::free_chlorine);
  CHECK(chlorine.readings.contains(Reading::free_chlorine));
  CHECK_FALSE(chlorine.readings.contains(Reading::total_bromine));
  const TargetSet bromine = followed_targets(sample_request(), assumptions, Reading::total_bromine);
  CHECK(bromine.readings.contains(Reading::total_bromine));
  CHECK_FALSE(bromine.readings.contains(Reading::free_chlorine));
}

TEST_CASE("a band is accepted inward in the retest's divisions, or is too fine for the test") {
  const TestMethod strip = test_method("strip");
  const AcceptedBand band = accepted(strip, Reading::total_alkalinity, {112, 151});
  CHECK(band.limits == Limits{120, 140});
  CHECK_FALSE(band.is_too_coarse);
  CHECK(accepted(strip, Reading::total_alkalinity, {121, 139}).is_too_coarse);
  CHECK(accepted(strip, Reading::total_alkalinity, {121, 139}).limits == Limits{121, 139});
}

TEST_CASE("what is expected holds the retest's own error and is rounded outward") {
  Spread spread(102);
  spread.add_normal(6);
  const Interval interval = expected(test_method("drop_kit"), Reading::total_alkalinity, spread, 0);
  // Drop kit: 10 give or take 10; with 6 that is 11.7, so 90.3 to 113.7.
  CHECK(interval == Interval{90, 102, 120});
}

}  // namespace tub::planning
