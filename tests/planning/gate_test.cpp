// What keeps people out: stabiliser, combined chlorine, metals, a shelf that cannot open the gate.
#include "planning/steps/gate.h"

#include <algorithm>
#include <catch2/catch.hpp>

#include "planning/make_plan.h"
#include "planning/remedies/water_remedies.h"
#include "sample_job.h"

namespace tub::planning {
namespace {

PlanRequest full_tub_with(const std::string& key, double mg_l) {
  PlanRequest request = full_tub(7.5, 120, 200);
  request.water.readings[key] = {mg_l, "photometer"};
  return request;
}

PlanRequest with_combined(double mg_l) {
  PlanRequest request = full_tub_with("cyanuric_acid_mg_l", 20);
  request.water.readings["free_chlorine_mg_l"] = {3.5, "photometer"};
  request.water.readings["total_chlorine_mg_l"] = {3.5 + mg_l, "photometer"};
  return request;
}

void take_off(PlanRequest& request, const std::string& product) {
  std::erase_if(request.shelf, [&](const ShelfItem& item) { return item.product.id == product; });
}

bool pours(const Plan& plan, const std::string& product) {
  return std::any_of(plan.steps.begin(), plan.steps.end(), [&](const Step& step) {
    const auto* addition = std::get_if<Addition>(&step.what);
    return addition != nullptr && addition->product == product;
  });
}

double number(const Reason& reason, const std::string& name) {
  for (const auto& [key, value] : reason.parameters) {
    if (key == name) return std::get<double>(value);
  }
  FAIL("no " + name);
  return 0;
}

std::string word(const Reason& reason, const std::string& name) {
  for (const auto& [key, value] : reason.parameters) {
    if (key == name) return std::get<std::string>(value);
  }
  return "";
}

const Reason* caution(const Plan& plan, const std::string& code) {
  const auto found = std::find_if(plan.cautions.begin(), plan.cautions.end(),
                                  [&](const Reason& one) { return one.code == code; });
  return found == plan.cautions.end() ? nullptr : &*found;
}

const Unmet& unmet(const Plan& plan, Reading reading) {
  const auto found = std::find_if(plan.unmet.begin(), plan.unmet.end(),
                                  [&](const Unmet& one) { return one.reading == reading; });
  REQUIRE(found != plan.unmet.end());
  return *found;
}

}  // namespace

TEST_CASE("nobody bathes above 100 mg/L of stabiliser, whatever set is silent on it") {
  // Source: ANSI/APSP-11 type standard, residential portable spas: at most 100 mg/L (from memory).
  for (const char* set : {"common_practice", "us_cdc_home_hot_tub_current", "us_ny_6_1_25"}) {
    CAPTURE(set);
    PlanRequest request = full_tub_with("cyanuric_acid_mg_l", 150);
    request.targets = target_set(set);
    const Plan plan = planned(request);
    REQUIRE(plan.gate_closed);
    CHECK(plan.gate_closed->code == "cyanuric_acid_too_high");
    CHECK(plan.gate.at(Reading::cyanuric_acid) == Range{0, 100});
    CHECK(number(*plan.gate_closed, "high") == 100);
    CHECK(plan.unmet.front().reading == Reading::cyanuric_acid);
    CHECK(plan.unmet.front().closes_gate);
  }
}

TEST_CASE("a set's own ceiling of stabiliser goes before that of the standard") {
  // Sources: 410 IAC 6-2.1-30 (Indiana): 60 mg/L; NZS 5826:2010: 50 mg/L (from memory).
  PlanRequest request = full_tub_with("cyanuric_acid_mg_l", 80);
  request.sanitizer.kind = "sodium_hypochlorite";
  request.shelf.push_back(shelf_item("sodium_hypochlorite"));
  CHECK_FALSE(planned(request).gate_closed);
  for (const auto& [set, most] :
       {std::pair{"us_indiana_6_2_1_30", 60.0}, std::pair{"nz_5826", 50.0}}) {
    CAPTURE(set);
    request.targets = target_set(set);
    const Plan plan = planned(request);
    REQUIRE(plan.gate_closed);
    CHECK(number(*plan.gate_closed, "high") == most);
  }
}

TEST_CASE("the share that is drained dilutes the stabiliser to its ceiling") {
  const Plan plan = planned(full_tub_with("cyanuric_acid_mg_l", 150));
  const Remedy& remedy = *unmet(plan, Reading::cyanuric_acid).remedy;
  CHECK(remedy.kind == "replace");
  CHECK(remedy.with == "fresh_water");
  // By dilution: 150 (1 - share) <= 100 from a third on; refills are told in twentieths.
  CHECK(150 * (1 - *remedy.fraction) <= 100);
  CHECK(*remedy.fraction == Approx(0.35));
  CHECK(number(*plan.gate_closed, "fraction") == *remedy.fraction);
  PlanRequest full = full_tub_with("cyanuric_acid_mg_l", 600);
  full.water.readings["total_alkalinity_mg_l"] = {300, "photometer"};
  const Plan much = planned(full);
  CHECK(unmet(much, Reading::cyanuric_acid).remedy->kind == "drain");
  CHECK(*unmet(much, Reading::cyanuric_acid).remedy->fraction == 1);
}

TEST_CASE("a second water that is known thins the stabiliser within the plan") {
  PlanRequest request = full_tub_with("cyanuric_acid_mg_l", 150);
  take_off(request, "dichlor_dihydrate");
  request.sanitizer.kind = "sodium_hypochlorite";
  request.shelf.push_back(shelf_item("sodium_hypochlorite"));
  request.second_source = request_for_water(7.5, 120, 200).water;
  const Plan plan = planned(request);
  CHECK_FALSE(plan.gate_closed);
  CHECK(plan.final.cyanuric_acid_mg_l <= 100);
}

TEST_CASE("nobody bathes above 1 mg/L of combined chlorine, or the set's own ceiling") {
  // Source: UK HSE HSG282 (2017): at most 1 mg/L; Model Aquatic Health Code 2023: 0.4.
  CHECK_FALSE(planned(with_combined(0.9)).gate_closed);
  const Plan plan = planned(with_combined(2.5));
  REQUIRE(plan.gate_closed);
  CHECK(plan.gate_closed->code == "combined_chlorine_too_high");
  CHECK(plan.gate.at(Reading::combined_chlorine) == Range{0, 1});
  // 2.5 (1 - share) < 1 from 0.6 on.
  CHECK(*unmet(plan, Reading::combined_chlorine).remedy->fraction == Approx(0.65));
  PlanRequest strict = with_combined(0.9);
  strict.targets = target_set("us_mahc_2023");
  CHECK(planned(strict).gate_closed);
}

TEST_CASE(
    "chlorine that a supplier has bound is eaten by the first dose, and the gate asks for it") {
  PlanRequest request = request_for_water(7.5, 120, 200);
  request.water.readings["free_chlorine_mg_l"] = {0.1, "photometer"};
  request.water.readings["total_chlorine_mg_l"] = {2.1, "photometer"};
  const Plan plan = planned(request);
  REQUIRE(plan.gate_closed);
  CHECK(plan.gate_closed->code == "combined_chlorine_of_the_tap");
  CHECK(word(*plan.gate_closed, "remedy") == "wait");
  CHECK(plan.steps.back().accept.at(Reading::combined_chlorine).high == 1);
}

TEST_CASE("stabiliser and combined chlorine stand at the gate only where they concern the water") {
  const Plan fresh = planned(sample_request());
  CHECK_FALSE(fresh.gate.contains(Reading::cyanuric_acid));
  CHECK_FALSE(fresh.gate.contains(Reading::combined_chlorine));
  const Plan used = planned(with_combined(0.5));
  CHECK(used.gate.contains(Reading::cyanuric_acid));
  CHECK(used.gate.contains(Reading::combined_chlorine));
  const auto& measured = used.measured;
  CHECK(std::count(measured.begin(), measured.end(), "combined_chlorine_mg_l") == 1);
  // Nothing is too little to bathe in.
  CHECK_FALSE(used.steps.back().accept.at(Reading::cyanuric_acid).low);
}

TEST_CASE("from 50 mg/L of stabiliser on no dichlor is poured, and the gate says what to get") {
  CHECK(pours(planned(full_tub_with("cyanuric_acid_mg_l", 45)), "dichlor_dihydrate"));
  const Plan plan = planned(full_tub_with("cyanuric_acid_mg_l", 50));
  CHECK_FALSE(pours(plan, "dichlor_dihydrate"));
  const Unmet& chlorine = unmet(plan, Reading::free_chlorine);
  CHECK(chlorine.closes_gate);
  CHECK(chlorine.reason.code == "stabiliser_leaves_no_dichlor");
  CHECK(chlorine.remedy->product == "sodium_hypochlorite");
  CHECK(*chlorine.remedy->amount_ml > 0);
  // 50 (1 - share) < 50: the least share that can be told.
  CHECK(number(chlorine.reason, "drain_fraction") == Approx(0.05));
}

TEST_CASE("another chlorine of the shelf is poured where stabiliser leaves no room for dichlor") {
  PlanRequest request = full_tub_with("cyanuric_acid_mg_l", 60);
  request.shelf.push_back(shelf_item("sodium_hypochlorite"));
  const Plan plan = planned(request);
  CHECK(pours(plan, "sodium_hypochlorite"));
  CHECK_FALSE(plan.gate_closed);
  REQUIRE(caution(plan, "other_chlorine_instead") != nullptr);
  CHECK(word(*caution(plan, "other_chlorine_instead"), "product") == "sodium_hypochlorite");
}

TEST_CASE("bromine is not woken by dichlor either where there is so much stabiliser") {
  PlanRequest request = full_tub_with("cyanuric_acid_mg_l", 60);
  request.sanitizer.kind = "two_step_bromine";
  request.shelf.push_back(shelf_item("sodium_bromide"));
  const Plan plan = planned(request);
  CHECK_FALSE(pours(plan, "dichlor_dihydrate"));
  CHECK(plan.gate_closed);
}

TEST_CASE("a full tub whose sanitizer brings stabiliser is tested for it") {
  CHECK(caution(planned(full_tub(7.5, 120, 200)), "stabiliser_not_tested") != nullptr);
  CHECK(planned(full_tub(7.5, 120, 200)).gate.contains(Reading::cyanuric_acid));
  const Plan tested = planned(full_tub_with("cyanuric_acid_mg_l", 20));
  CHECK(caution(tested, "stabiliser_not_tested") == nullptr);
  CHECK(caution(planned(sample_request()), "stabiliser_not_tested") == nullptr);
  PlanRequest other = full_tub(7.5, 120, 200);
  other.sanitizer.kind = "sodium_hypochlorite";
  CHECK(caution(planned(other), "stabiliser_not_tested") == nullptr);
}

TEST_CASE("metal above its limit and no sequestrant: no sanitizer, a closed gate, what to buy") {
  // Limits: US secondary drinking-water standards (from memory).
  const std::vector<std::pair<std::string, double>> metals = {
      {"iron_mg_l", 0.31}, {"manganese_mg_l", 0.06}, {"copper_mg_l", 1.1}};
  for (const auto& [key, mg_l] : metals) {
    CAPTURE(key);
    PlanRequest request = sample_request();
    request.water.readings["iron_mg_l"] = {0, "photometer"};
    request.water.readings[key] = {mg_l, "photometer"};
    CHECK_FALSE(planned(request).gate_closed);
    take_off(request, "sequestrant");
    const Plan plan = planned(request);
    CHECK_FALSE(pours(plan, "dichlor_dihydrate"));
    REQUIRE(plan.gate_closed);
    CHECK(plan.gate_closed->code == "no_sequestrant_on_shelf");
    CHECK(word(*plan.gate_closed, "reading") == key);
    CHECK(word(*plan.gate_closed, "product") == "sequestrant");
    CHECK(unmet(plan, Reading::free_chlorine).reason.code == "metals_come_first");
    // What else the shelf lacks is no answer to metal.
    take_off(request, "dry_acid");
    for (const Unmet& one : planned(request).unmet) {
      if (one.reason.code != "metals_come_first") continue;
      CHECK(one.remedy->product == "sequestrant");
    }
  }
}

TEST_CASE("ten times a metal's limit is more than a sequestrant is meant for, and is said") {
  PlanRequest request = sample_request();
  request.water.readings["iron_mg_l"] = {2.9, "photometer"};
  CHECK(caution(planned(request), "more_than_a_sequestrant_holds") == nullptr);
  request.water.readings["iron_mg_l"] = {3.1, "photometer"};
  const Plan plan = planned(request);
  const Reason* const said = caution(plan, "more_than_a_sequestrant_holds");
  REQUIRE(said != nullptr);
  CHECK(word(*said, "reading") == "iron_mg_l");
  CHECK(number(*said, "limit_mg_l") == 0.3);
  CHECK(number(*said, "times") == 10);
}

TEST_CASE("water that needs acid and a shelf without: the gate is closed by what to buy") {
  PlanRequest request = request_for_water(8.3, 150, 200);
  take_off(request, "dry_acid");
  const Plan plan = planned(request);
  REQUIRE(plan.gate_closed);
  CHECK(plan.gate_closed->code == "no_acid_on_shelf");
  CHECK(word(*plan.gate_closed, "product") == "dry_acid");
  const double grams = number(*plan.gate_closed, "amount_g");
  request.shelf.push_back(shelf_item("dry_acid"));
  const Plan with_acid = planned(request);
  CHECK_FALSE(with_acid.gate_closed);
  for (const Step& step : with_acid.steps) {
    const auto* addition = std::get_if<Addition>(&step.what);
    if (addition == nullptr || addition->product != "dry_acid") continue;
    // As much as the plan with it takes, to the grams of a scale.
    CHECK(grams == Approx(*addition->amount_g).margin(2));
  }
}

TEST_CASE("no sanitizer on the shelf closes the gate; too much of it is waited for") {
  PlanRequest request = sample_request();
  take_off(request, "dichlor_dihydrate");
  REQUIRE(planned(request).gate_closed);
  CHECK(planned(request).gate_closed->code == "no_sanitizer_on_shelf");
  PlanRequest much = with_combined(0);
  much.water.readings["free_chlorine_mg_l"] = {12, "photometer"};
  much.water.readings["total_chlorine_mg_l"] = {12, "photometer"};
  const Plan plan = planned(much);
  REQUIRE(plan.gate_closed);
  CHECK(plan.gate_closed->code == "sanitizer_too_high");
  CHECK(number(*plan.gate_closed, "hours") > 0);
}

TEST_CASE("a liquid to buy is named in millilitres, as it is poured") {
  PlanRequest request = full_tub_with("cyanuric_acid_mg_l", 60);
  const Plan plan = planned(request);
  REQUIRE(plan.gate_closed);
  const std::optional<Remedy>& remedy = unmet(plan, Reading::free_chlorine).remedy;
  REQUIRE(remedy);
  CHECK(remedy->product == "sodium_hypochlorite");
  CHECK_FALSE(remedy->amount_g);
  // Liquid chlorine of 12.5 g/100 mL: some 3 to 4 mg/L in 1340 L are 32 to 43 mL, and fresh water's
  // demand beside it.
  REQUIRE(remedy->amount_ml);
  CHECK(*remedy->amount_ml > 20);
  CHECK(*remedy->amount_ml < 60);
  CHECK(number(*plan.gate_closed, "amount_ml") == *remedy->amount_ml);
}

TEST_CASE("the worst of what closes the gate comes first: water, metal, products, time") {
  PlanRequest request = full_tub_with("cyanuric_acid_mg_l", 150);
  request.water.readings["ph"] = {8.2, "photometer"};
  request.water.readings["iron_mg_l"] = {0.8, "photometer"};
  take_off(request, "sequestrant");
  take_off(request, "dry_acid");
  const Plan plan = planned(request);
  std::vector<Reading> closing;
  for (const Unmet& one : plan.unmet) {
    if (one.closes_gate) closing.push_back(one.reading);
  }
  CHECK(closing == std::vector<Reading>{Reading::cyanuric_acid, Reading::iron, Reading::ph,
                                        Reading::free_chlorine});
  CHECK(plan.gate_closed->code == "cyanuric_acid_too_high");
}

TEST_CASE("a pH of the job's own leaves the gate, and the plan stays in what both allow") {
  PlanRequest request = sample_request();
  Target& ph = request.targets.readings[Reading::ph];
  ph.low = 7.0;
  ph.high = 7.4;
  ph.band_is_own = true;
  const Plan plan = planned(request);
  // Source: CDC, advice for home hot tubs: pH 7.2 to 7.8.
  CHECK(plan.gate.at(Reading::ph) == Range{7.2, 7.8});
  CHECK_FALSE(plan.gate_closed);
  CHECK(plan.final.ph >= 7.2);
  CHECK(plan.final.ph <= 7.4);
  CHECK(own_figures(plan.targets) == std::vector<Reading>{Reading::ph});
  CHECK(own_gates(plan.targets, plan.gate).empty());
}

TEST_CASE("whoever asks for the gate is named, that of pH beside that of the sanitizer") {
  const Plan plan = planned(sample_request());
  REQUIRE(plan.gate_sources.size() == 2);
  CHECK(plan.gate_sources.front().starts_with("HSE HSG282"));
  CHECK(plan.gate_sources.back().starts_with("CDC"));
}

TEST_CASE("a pH aim that has nothing in common with the gate is given up for it, and said") {
  PlanRequest request = sample_request();
  Target& ph = request.targets.readings[Reading::ph];
  ph.low = 8.0;
  ph.high = 8.2;
  ph.band_is_own = true;
  const Plan plan = planned(request);
  CHECK_FALSE(plan.gate_closed);
  CHECK(plan.gate.at(Reading::ph).holds(plan.final.ph));
  CHECK(unmet(plan, Reading::ph).reason.code == "aim_outside_gate");
  CHECK(unmet(plan, Reading::ph).low == 8.0);
  CHECK_FALSE(unmet(plan, Reading::ph).remedy);
  // The way out: the job names its own gate.
  ph.bathe_low = 7.8;
  ph.stop = 8.2;
  ph.gate_is_own = true;
  const Plan open = planned(request);
  CHECK(open.unmet.empty());
  CHECK(own_gates(open.targets, open.gate) == std::vector<Reading>{Reading::ph});
}

TEST_CASE("a band of stabiliser of the job's own leaves the ceiling; a stop of its own moves it") {
  TargetSet set = target_set("us_indiana_6_2_1_30");
  Target& own = set.readings[Reading::cyanuric_acid];
  own.high = 40;
  own.band_is_own = true;
  // Source: 410 IAC 6-2.1-30: at most 60 mg/L.
  CHECK(ceiling_mg_l(set, planning_data(), Reading::cyanuric_acid) == 60);
  own.stop = 45;
  own.gate_is_own = true;
  CHECK(ceiling_mg_l(set, planning_data(), Reading::cyanuric_acid) == 45);
}

TEST_CASE("the authorities' least sanitizer stands in the place of a lower one of the job's own") {
  PlanRequest request = sample_request();
  Target& own = request.targets.readings[Reading::free_chlorine];
  own.bathe_low = 1;
  own.gate_is_own = true;
  const Plan plan = planned(request);
  CHECK(plan.gate.at(Reading::free_chlorine) == Range{3, 5});
  CHECK(own_gates(plan.targets, plan.gate).empty());
  own.bathe_low = 3.5;
  const Plan higher = planned(request);
  CHECK(higher.gate.at(Reading::free_chlorine) == Range{3.5, 5});
  CHECK(own_gates(higher.targets, higher.gate) == std::vector<Reading>{Reading::free_chlorine});
  // The row's source is of the row's figures alone.
  CHECK(higher.gate_sources.front().find("HSG282") == std::string::npos);
}

TEST_CASE("a share to drain is the least whose rest is below what is asked, in twentieths") {
  const Assumptions& rows = planning_data().assumptions;
  CHECK(share_to_drain(rows, 150, 0, 100) == Approx(0.35));
  CHECK(share_to_drain(rows, 150, 50, 100) == Approx(0.55));
  CHECK(share_to_drain(rows, 150, 120, 100) == 1);
}

}  // namespace tub::planning
