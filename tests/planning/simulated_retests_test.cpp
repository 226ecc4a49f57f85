// How often retests find what is wrong with a tub, and bring its true water into its bands: seeded
// cases, every pour followed by a test and a plan made again.
#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>
#include <cstdio>
#include <set>
#include <string_view>

#include "draw.h"
#include "planning/goals/goals.h"
#include "planning/tables/sanitizer_row.h"
#include "sample_job.h"
#include "simulated_tub.h"

namespace tub::planning {
namespace {

/// A hundred in the longer run (planning_tests "[long]"), whose figures docs/planning.md has.
constexpr int few = 6;
constexpr int many = 100;

/// A tub that is weighed and tested well: a scale and a photometer.
PlanRequest well_tested(double ph, double alkalinity, double hardness, double litres) {
  PlanRequest request = request_for_water(ph, alkalinity, hardness);
  request.tub.volume_l = litres;
  request.measure = measure_system("grams");
  request.retest_with = test_method("photometer");
  for (auto& [key, reading] : request.water.readings) reading.method = "photometer";
  request.water.readings["free_chlorine_mg_l"] = {0, "photometer"};
  return request;
}

struct Tally {
  int said = 0;      ///< cases in which a reading was far off
  int named = 0;     ///< with the true reason among those named
  int within = 0;    ///< its figure within its 90 % range
  int in_bands = 0;  ///< true final water inside every band that its plan does not call unmet
  int ended = 0;
  int plans = 0;
};

bool is_in_bands(const PlanRequest& request, const Startup& startup) {
  const SanitizerRow& sanitizer = sanitizer_row(planning_data().sanitizers, request.sanitizer.kind);
  const BathingGate gate{startup.last.gate, {}};
  bool is_inside = true;
  for (const auto& [reading, goal] : goals_of(startup.last.targets, gate, sanitizer.reading)) {
    const auto& unmet = startup.last.unmet;
    const bool is_unmet = std::any_of(unmet.begin(), unmet.end(),
                                      [&](const Unmet& one) { return one.reading == reading; });
    const double outside = distance_outside(reading, goal.band, value_of(reading, startup.end));
    // Half a division of the test cannot be seen by whoever tests.
    if (!is_unmet && outside > 0.25) is_inside = false;
  }
  return is_inside;
}

void count(const PlanRequest& request, const Truth& truth, const std::string& code,
           double true_figure, Tally& tally) {
  const Startup startup = started_up(request, truth, "photometer");
  tally.plans += startup.plans;
  if (startup.is_ended) ++tally.ended;
  if (is_in_bands(request, startup)) ++tally.in_bands;
  bool is_said = false;
  const Reason* named = nullptr;
  for (const FoundReading& found : startup.last.found) {
    is_said = is_said || found.likely.has_value();
    if (found.likely && found.likely->code == code && named == nullptr) named = &*found.likely;
  }
  if (is_said) ++tally.said;
  if (named == nullptr) return;
  ++tally.named;
  const char* const low = code == "volume" ? "low_l" : "low";
  const char* const high = code == "volume" ? "high_l" : "high";
  if (!named->number(low)) return;
  if (true_figure >= named->number(low) && true_figure <= named->number(high)) ++tally.within;
}

/// One way in which tubs are otherwise than their jobs say.
struct Scenario {
  const char* name;
  std::uint64_t seed;
  Range ph, alkalinity, hardness;
  Truth truth;
  const char* code;
  double true_figure;  ///< of the reason; of a volume: true over stated
};

Tally tally_of(const Scenario& scenario, int tubs) {
  Tally tally;
  Draw draw(scenario.seed);
  for (int i = 0; i < tubs; ++i) {
    const double ph = draw.between(scenario.ph.low, scenario.ph.high);
    const double alkalinity = draw.between(scenario.alkalinity.low, scenario.alkalinity.high);
    const double hardness = draw.between(scenario.hardness.low, scenario.hardness.high);
    const double litres = draw.between(300, 3000);
    const bool is_volume = std::string_view(scenario.code) == "volume";
    count(well_tested(ph, alkalinity, hardness, litres), scenario.truth, scenario.code,
          scenario.true_figure * (is_volume ? litres : 1), tally);
  }
  std::printf(
      "%s: of %d tubs %d far off, %d named, %d figures within; %d ended, %d in bands; %d plans\n",
      scenario.name, tubs, tally.said, tally.named, tally.within, tally.ended, tally.in_bands,
      tally.plans);
  std::fflush(stdout);
  return tally;
}

const Scenario as_stated = {"as stated", 1, {6.8, 8.2}, {10, 90}, {20, 150}, {}, "", 0};
const Scenario a_fifth_more = {"a fifth more",  2,        {6.8, 8.2}, {5, 40}, {10, 60},
                               {1.2, {}, 0, 0}, "volume", 1.2};
const Scenario stale_acid = {
    "acid at three tenths", 3,  {8.2, 8.5}, {110, 150}, {180, 240}, {1, {{"dry_acid", 0.3}}, 0, 0},
    "weak_product",         0.3};
const Scenario gas_lost = {
    "gas lost", 4, {6.8, 7.3}, {30, 90}, {100, 240}, {1, {}, 0.5, 0}, "carbon_dioxide_lost", 0.5};

/// What is far off is told by its true reason, and the true water comes right all the same.
void check(const Tally& tally, int tubs) {
  CHECK(tally.ended == tubs);
  CHECK(tally.in_bands == tubs);
  CHECK(tally.said >= 1);
  CHECK(tally.named == tally.said);
}

/// What the last plan says of every reading that was far off.
std::set<std::string> codes_named(const Startup& startup) {
  std::set<std::string> codes;
  for (const FoundReading& found : startup.last.found) {
    if (found.likely) codes.insert(found.likely->code);
  }
  return codes;
}

}  // namespace

TEST_CASE("tubs as their jobs say end in their bands, and nothing is called wrong") {
  const Tally tally = tally_of(as_stated, few);
  CHECK(tally.ended == few);
  CHECK(tally.said == 0);
  CHECK(tally.in_bands == few);
}

TEST_CASE("a tub that holds a fifth more is found out, and its water comes right") {
  const Tally tally = tally_of(a_fifth_more, few);
  check(tally, few);
  CHECK(tally.within == tally.named);
}

TEST_CASE("stale acid is found out, and the water comes right") {
  check(tally_of(stale_acid, few), few);
}

TEST_CASE("carbon dioxide that leaves in the waits is found out, and the water comes right") {
  check(tally_of(gas_lost, few), few);
}

TEST_CASE(
    "chlorine that reads low after dichlor is used up by the water before the dichlor is weak") {
  for (const double extra_mg_l : {1.5, 2.5}) {
    CAPTURE(extra_mg_l);
    const Truth thirsty{1, {}, 0, extra_mg_l};
    const Startup startup = started_up(well_tested(7.6, 110, 200, 1340), thirsty, "photometer");
    CHECK(codes_named(startup) == std::set<std::string>{"demand"});
    CHECK(startup.is_ended);
  }
}

TEST_CASE("liquid chlorine that falls short at every pour is stale") {
  PlanRequest request = well_tested(7.2, 110, 200, 1340);
  request.sanitizer.kind = "sodium_hypochlorite";
  request.shelf.push_back(shelf_item("sodium_hypochlorite"));
  const Truth stale{1, {{"sodium_hypochlorite", 0.3}}, 0, 0};
  const Startup startup = started_up(request, stale, "photometer");
  CHECK(codes_named(startup).contains("weak_product"));
  CHECK(startup.is_ended);
}

TEST_CASE("two products that fall short alike are a larger tub, not two reasons") {
  const Truth larger{1.5, {}, 0, 0};
  const Startup startup = started_up(well_tested(7.4, 30, 200, 1340), larger, "photometer");
  CHECK(codes_named(startup) == std::set<std::string>{"volume"});
  CHECK(startup.last.volume_l == Approx(1.5 * 1340).epsilon(0.05));
}

TEST_CASE("how often, over a hundred tubs of each kind", "[.][long]") {
  for (const Scenario& scenario : {as_stated, a_fifth_more, stale_acid, gas_lost}) {
    CHECK(tally_of(scenario, many).ended == many);
  }
}

}  // namespace tub::planning
