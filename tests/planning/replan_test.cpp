// Retest and go on: what a plan makes of what was found, in tubs that are simulated.
#include "planning/retests/replan.h"

#include <catch2/catch.hpp>
#include <cmath>

#include "base/error.h"
#include "sample_job.h"

namespace tub::planning {
namespace {

Plan plan_of(const PlanRequest& request) { return planned(request); }

/// A report of one reading after a step.
RetestReport report_after(int step, Reading reading, double value,
                          const std::string& method = "drop_kit") {
  RetestReport report;
  report.after_step = step;
  report.readings[std::string(key_of(reading))] = {value, method};
  report.where = "job.json: /readings/0";
  return report;
}

const Step& step_for(const std::vector<Step>& steps, const std::string& product) {
  for (const Step& step : steps) {
    const auto* addition = std::get_if<Addition>(&step.what);
    if (addition != nullptr && addition->product == product) return step;
  }
  FAIL("no step for " << product);
  return steps.front();
}

double grams_of(const std::vector<Step>& steps, const std::string& product) {
  double grams = 0;
  for (const Step& step : steps) {
    const auto* addition = std::get_if<Addition>(&step.what);
    if (addition != nullptr && addition->product == product) {
      grams += addition->amount_g.value_or(addition->amount_ml.value_or(0));
    }
  }
  return grams;
}

std::string problems_of(const PlanRequest& request) {
  try {
    static_cast<void>(plan_of(request));
  } catch (const Error& error) {
    std::string text;
    for (const Diagnostic& found : error.diagnostics()) {
      text += found.where + ": " + found.message + "\n";
    }
    return text;
  }
  return "";
}

}  // namespace

TEST_CASE("alkalinity that rises by 90 instead of 60 says that the tub holds two thirds") {
  PlanRequest request = request_for_water(7.6, 60, 200);
  const Plan plan = plan_of(request);
  const Step& step = step_for(plan.steps, "sodium_bicarbonate");
  const double rise = step.after->total_alkalinity_mg_l - 60;
  request.retests = {
      report_after(step.number, Reading::total_alkalinity, 60 + 1.5 * rise, "photometer")};
  const Plan again = plan_of(request);
  REQUIRE(again.found.size() == 1);
  const FoundReading& found = again.found.front();
  CHECK(*found.deviations > 2);
  REQUIRE(found.likely);
  CHECK(found.likely->code == "volume");
  // The dilution arithmetic: the same grams made 1.5 times the rise.
  CHECK(std::get<double>(found.likely->parameters.at(0).second) ==
        Approx(1340 / 1.5).epsilon(0.01));
  CHECK(again.volume_l == Approx(1340 / 1.5).epsilon(0.01));
}

TEST_CASE(
    "whatever chlorine reads low after dichlor, the water's demand is likelier than weak dichlor") {
  const PlanRequest request = request_for_water(7.6, 110, 200);
  const Plan plan = plan_of(request);
  const Step& step = step_for(plan.steps, "dichlor_dihydrate");
  for (const char* kit : {"strip", "drop_kit", "photometer"}) {
    for (const double share : {0.0, 0.1, 0.2, 0.36, 0.5}) {
      CAPTURE(kit, share);
      PlanRequest again = request;
      again.retests = {report_after(step.number, Reading::free_chlorine,
                                    share * step.after->free_chlorine_mg_l, kit)};
      const FoundReading found = plan_of(again).found.front();
      REQUIRE(found.likely);
      CHECK(found.likely->code == "demand");
    }
  }
}

TEST_CASE("liquid chlorine that reaches a third of what it should is stale, as jugs often are") {
  PlanRequest request = request_for_water(7.6, 110, 200);
  request.sanitizer.kind = "sodium_hypochlorite";
  request.shelf.push_back(shelf_item("sodium_hypochlorite"));
  const Plan plan = plan_of(request);
  const Step& step = step_for(plan.steps, "sodium_hypochlorite");
  request.retests = {report_after(step.number, Reading::free_chlorine,
                                  0.36 * step.after->free_chlorine_mg_l, "photometer")};
  const FoundReading found = plan_of(request).found.front();
  REQUIRE(found.likely);
  CHECK(found.likely->code == "weak_product");
}

TEST_CASE("a reading as it was expected leaves the rest of the plan as it was") {
  const Plan plan = plan_of(sample_request());
  for (const Step& step : plan.steps) {
    if (!step.after || !std::holds_alternative<Addition>(step.what)) continue;
    PlanRequest request = sample_request();
    RetestReport report = report_after(step.number, Reading::ph, step.after->ph);
    report.readings["total_alkalinity_mg_l"] = {step.after->total_alkalinity_mg_l, "drop_kit"};
    request.retests = {report};
    const Plan again = plan_of(request);
    CAPTURE(step.number);
    CHECK(again.steps.front().number == step.number + 1);
    CHECK(again.done.size() + again.steps.size() == plan.steps.size());
    CHECK(again.volume_l == plan.volume_l);
    CHECK(again.final.ph == Approx(plan.final.ph).margin(0.02));
    for (const Step& left : again.steps) {
      const auto* addition = std::get_if<Addition>(&left.what);
      if (addition == nullptr) continue;
      CAPTURE(addition->product);
      CHECK(grams_of(again.steps, addition->product) ==
            Approx(grams_of(plan.steps, addition->product)).margin(1.01));
    }
  }
}

TEST_CASE("a retest at no place of the plan is told at its place in the job") {
  PlanRequest request = sample_request();
  const Plan plan = plan_of(request);
  const int bicarbonate = step_for(plan.steps, "sodium_bicarbonate").number;
  RetestReport missing = report_after(40, Reading::ph, 7.6);
  request.retests = {missing};
  CHECK(problems_of(request) ==
        "job.json: /readings/0/after_step: there is no step 40 in this plan: its steps are 1 to " +
            std::to_string(plan.steps.back().number) + "\n");
  RetestReport pour = report_after(1, Reading::ph, 7.6);
  pour.after_pour = 2;
  RetestReport round = report_after(bicarbonate, Reading::ph, 7.6);
  round.after_round = 2;
  request.retests = {pour, round};
  CHECK(problems_of(request) ==
        "job.json: /readings/0/after_pour: nothing is poured in step 1\n"
        "job.json: /readings/0/after_round: step " +
            std::to_string(bicarbonate) + " is not done in rounds\n");
}

TEST_CASE("iron that is tested again is as uncertain as the test that read it last") {
  PlanRequest request = sample_request();
  RetestReport report = report_after(2, Reading::iron, 0.5, "drop_kit");  // give or take 0.15
  request.retests = {report};
  const Plan again = plan_of(request);
  CHECK(again.final.iron_mg_l == Approx(0.5));
  CHECK(again.final_range.at("iron_mg_l").low == Approx(0.35));
  CHECK(again.final_range.at("iron_mg_l").high == Approx(0.65));
  report.after_step.reset();
  report.date = "2026-06-01";
  report.readings = {{"ph", {7.5, "drop_kit"}}, {"total_alkalinity_mg_l", {110, "drop_kit"}}};
  request.retests.push_back(report);
  // A visit that tests no iron leaves it as sure as it was.
  CHECK(plan_of(request).final_range.at("iron_mg_l").high == Approx(0.65));
}

}  // namespace tub::planning
