// Cards of plans that the planner made, for jobs drawn at random: any water, shelf, measure, retest
// and target set.
#include <catch2/catch.hpp>
#include <cmath>

#include "../layout/layout_test.h"
#include "../planning/random_job.h"
#include "../planning/sample_job.h"
#include "card_rules.h"
#include "fixture.h"
#include "layout/pages/lay_out.h"
#include "planning/make_plan.h"

namespace {

using namespace tub;
using namespace tub::sheets;
using namespace tub::layout;
using test::quince_row_heading;
using test::startup_document;

constexpr std::uint64_t jobs = 60;

Heading heading_for(std::uint64_t seed) {
  Heading heading = quince_row_heading();
  if (seed % 3 == 0) heading.date.reset();
  if (seed % 5 == 0) heading.shop_phone.clear();
  return heading;
}

}  // namespace

TEST_CASE("a card of any plan answers every reading, in real type, and prints no sum") {
  for (std::uint64_t seed = 1; seed <= jobs; ++seed) {
    INFO("seed " << seed);
    const Plan plan = make_plan(random_request(seed), planning_data(), species_table());
    const Document card = startup_document(plan, heading_for(seed));
    CHECK(test::unanswered_readings(card) == std::vector<std::string>{});
    CHECK(test::typographic_faults(card) == std::vector<std::string>{});
    CHECK(test::printed_sums(card, plan) == std::vector<std::string>{});
  }
}

TEST_CASE("a card names the temperature that the plan pours at, never a warmer one") {
  for (const double bathing_c : {20.0, 27.0, 30.0, 38.0}) {
    CAPTURE(bathing_c);
    PlanRequest request = sample_request();
    request.tub.bathing_temperature_c = bathing_c;
    request.tub.shell = "vinyl";
    const Plan plan = make_plan(request, planning_data(), species_table());
    double poured_at_c = 0;
    for (const Step& step : plan.steps) {
      if (std::holds_alternative<Addition>(step.what) && poured_at_c == 0) {
        poured_at_c = step.after->temperature_c;
      }
    }
    const std::string words = test::words_of(startup_document(plan, quince_row_heading()));
    CHECK(words.find("Water " + std::to_string(std::lround(poured_at_c)) + "\u202F°C or warmer") !=
          std::string::npos);
    if (bathing_c < 27) CHECK(words.find("27") == std::string::npos);
  }
}

TEST_CASE("four two-pour rungs fit one A4 page, three fit one Letter page") {
  Plan plan = test::quince_row_plan();
  const auto pages = [&](const char* paper) {
    const Document card = startup_document(plan, quince_row_heading());
    return lay_out(card, test_style(), test_stock(paper), test_fonts()).size();
  };
  std::erase_if(plan.steps, [](const Step& step) { return step.number == 2; });
  plan.held.clear();
  CHECK(pages("a4") == 1);
  std::erase_if(plan.steps, [](const Step& step) { return step.number == 3; });
  CHECK(pages("letter") == 1);
}

TEST_CASE("the foot of every target set fits with own figures, in every language") {
  for (const TargetSet& set : test::planning_data().target_sets) {
    PlanRequest request = sample_request();
    request.sanitizer.kind = "sodium_hypochlorite";
    request.targets = set;
    request.tub.use = set.uses.front();
    request.targets.readings.at(Reading::ph).band_is_own = true;
    request.targets.readings.at(Reading::ph).gate_is_own = true;
    const Plan plan = make_plan(request, planning_data(), species_table());
    for (const char* const tag : {"en", "de", "fr", "es"}) {
      INFO(set.id << " " << tag);
      const Document card = startup_document(plan, quince_row_heading(), test::language(tag));
      CHECK_NOTHROW(lay_out(card, test_style(), test_stock("a4"), test_fonts()));
      CHECK_NOTHROW(lay_out(card, test_style(), test_stock("letter"), test_fonts()));
    }
  }
}

TEST_CASE("a card of any plan fits on A4 and on Letter, on more pages if need be") {
  for (std::uint64_t seed = 1; seed <= jobs; ++seed) {
    INFO("seed " << seed);
    const Plan plan = make_plan(random_request(seed), planning_data(), species_table());
    const Document card = startup_document(plan, heading_for(seed));
    for (const char* const paper : {"a4", "letter"}) {
      CHECK_NOTHROW(lay_out(card, test_style(), test_stock(paper), test_fonts()));
    }
  }
}
