// The startup card of plans made by hand: what stands on it, and what must never.
#include <catch2/catch.hpp>
#include <cstdlib>
#include <fstream>

#include "card_rules.h"
#include "fixture.h"
#include "project_text.h"

namespace {

using namespace tub;
using namespace tub::sheets;
using test::quince_row_heading;
using test::quince_row_plan;
using test::startup_document;
using test::words_of;

bool says(const Document& card, const std::string& words) {
  return words_of(card).find(words) != std::string::npos;
}

Document quince_row_card() { return startup_document(quince_row_plan(), quince_row_heading()); }

void check_rules(const Document& card, const Plan& plan) {
  CHECK(test::unanswered_readings(card) == std::vector<std::string>{});
  CHECK(test::typographic_faults(card) == std::vector<std::string>{});
  CHECK(test::printed_sums(card, plan) == std::vector<std::string>{});
}

Step numbered(decltype(Step::what) what) {
  Step step;
  step.what = std::move(what);
  step.number = 2;
  return step;
}

// One round as a planner writes it: acid, at most two pours, then air until pH is back.
Step rounds_of_acid() {
  Addition acid;
  acid.product = "dry_acid";
  acid.reading = Reading::total_alkalinity;
  Portion pour;
  pour.amount_g = 50;
  pour.measure = {{2.5, "us_tablespoon"}};
  pour.expect[Reading::ph] = {6.9, 7, 7.2};
  acid.portions = {pour, pour};
  acid.portions[1].only_if = Condition{Reading::ph, Condition::Side::above, 7};
  Step add = numbered(acid);
  add.test = Reading::ph;
  Step air = numbered(ReleaseCarbonDioxide{-2.4, {2, 4, 8}});
  air.test = Reading::ph;
  air.accept[Reading::ph] = {7.4, 7.6};
  TestOutcome longer;
  longer.when = TestOutcome::When::under;
  longer.action = TestOutcome::Action::wait_and_test;
  longer.hours = 2;
  TestOutcome over;
  over.when = TestOutcome::When::over;
  over.action = TestOutcome::Action::stop_and_call;
  air.outcomes = {TestOutcome{}, longer, over};
  Repeat repeat;
  repeat.times = 4;
  repeat.at_most = 6;
  repeat.until = {Reading::total_alkalinity, Condition::Side::below, 150};
  repeat.steps = {add, air};
  Step step = numbered(repeat);
  step.test = Reading::total_alkalinity;
  step.accept[Reading::total_alkalinity] = {100, 150};
  return step;
}

}  // namespace

TEST_CASE("the card of a plan made by hand reads as it was approved") {
  const std::string path = std::string(TUB_SOURCE_DIR) + "/tests/sheets/startup_card.txt";
  const std::string text = test::text_of(quince_row_card());
  if (std::getenv("TUB_UPDATE_GOLDEN") != nullptr) std::ofstream(path, std::ios::binary) << text;
  CHECK(text == project_text("tests/sheets/startup_card.txt"));
}

TEST_CASE("every reading that a test can show is answered, in real type, and no sum is printed") {
  check_rules(quince_row_card(), quince_row_plan());
}

TEST_CASE("the rules of a card find a card that breaks them") {
  Plan plan = quince_row_plan();
  plan.steps.at(3).outcomes.pop_back();
  Heading heading = quince_row_heading();
  heading.vessel_name = "The 3-5 \"tub\"";
  const Document card = startup_document(plan, heading);
  CHECK(test::unanswered_readings(card) == std::vector<std::string>{"rung 3: 0 after all"});
  CHECK(test::typographic_faults(card).size() == 4);
}

TEST_CASE("the steps of one number share a rung, and the gate stands on the last") {
  const Document card = quince_row_card();
  const auto& rungs = test::ladder_of(card).rungs;
  REQUIRE(rungs.size() == 7);
  CHECK(text_of(rungs.front().title) == "Fill, then heat to 27\u202F°C");
  CHECK(text_of(rungs.back().key) == "7");
  CHECK(rungs.back().tick);
  CHECK(text_of(rungs.back().title) == "At 38\u202F°C, get in only when all are true:");
}

TEST_CASE("only targets stand on grey: the expected reading of a first pour does not") {
  const Document card = quince_row_card();
  for (const Rung& rung : test::ladder_of(card).rungs) {
    for (std::size_t i = 0; i < rung.pours.size(); ++i) {
      const bool is_last = i + 1 == rung.pours.size();
      CHECK(std::holds_alternative<Band>(rung.pours[i].reading.parts.at(0)) == is_last);
    }
  }
}

TEST_CASE("a grave product shows its hazard and its whole set of signs on its rung") {
  const Document card = quince_row_card();
  const auto& rungs = test::ladder_of(card).rungs;
  CHECK(rungs.at(2).hazard.empty());
  CHECK(rungs.at(2).signs.empty());
  CHECK(text_of(rungs.at(3).hazard) ==
        "Acid: serious eye damage; poison gas if it meets chlorine or bromine.");
  CHECK(rungs.at(3).signs.size() == 3);
}

TEST_CASE("liquid acid asks for more than the signs at the head of the page, and for no mask") {
  Plan plan = quince_row_plan();
  auto& acid = std::get<Addition>(plan.steps.at(4).what);
  acid.product = "muriatic_acid";
  for (Portion& portion : acid.portions) {
    portion.amount_ml = portion.amount_g;
    portion.amount_g.reset();
  }
  const Document card = startup_document(plan, quince_row_heading());
  const Rung& rung = test::ladder_of(card).rungs.at(3);
  REQUIRE(rung.signs.size() == 3);
  CHECK(rung.signs[2].pictogram == Pictogram::face_shield);
  CHECK(text_of(rung.hazard).find("Face shield too.") != std::string::npos);
  CHECK(rung.pours.at(0).amount.text == "21\u202FmL");
  CHECK(rung.pours.at(0).amount.spoons == "3 teaspoons (5\u202FmL)");
}

TEST_CASE("rounds of acid and air stand on one rung, with what to do after each") {
  Plan plan = quince_row_plan();
  plan.steps = {rounds_of_acid()};
  const Document card = startup_document(plan, quince_row_heading());
  const auto& rungs = test::ladder_of(card).rungs;
  REQUIRE(rungs.size() == 2);
  REQUIRE(rungs[0].pours.size() == 4);
  CHECK(text_of(rungs[0].title) == "Dry acid, in rounds");
  CHECK(text_of(rungs[0].pours[0].reading) == "expect 6.9–7.2");
  CHECK(text_of(rungs[0].pours[1].condition) == "If it reads over 7.0:");
  CHECK(rungs[0].pours[2].amount.spoons == "takes 2–8\u202Fh");
  CHECK(text_of(rungs[0].pours[2].wait) == "2\u202Fh");
  CHECK(text_of(rungs[0].pours[3].reading) == "100–150");
  CHECK(rungs[0].pours[3].amount.spoons == "strike out 1 2 3 4 5 6");
  std::vector<std::string> outcomes;
  for (const RungOutcome& outcome : rungs[0].outcomes) {
    outcomes.push_back(text_of(outcome.when) + " " + text_of(outcome.then));
  }
  CHECK(outcomes == std::vector<std::string>{
                        "pH 7.0 or less: skip the second.",
                        "pH 7.4–7.6: go on.",
                        "pH under 7.4: jets on, air open, test again in 2\u202Fh.",
                        "pH over 7.6: stop, call us.",
                        "Total alkalinity over 150: another round (about 4 in all, 6 at most).",
                        "Still so after 6 rounds: stop, call us.",
                        "Total alkalinity under 100: stop, call us.",
                    });
  CHECK(test::typographic_faults(card) == std::vector<std::string>{});
}

TEST_CASE("a test that is too coarse sends its reader to the shop") {
  Plan plan = quince_row_plan();
  plan.steps.at(4).test_too_coarse = true;
  const Document card = startup_document(plan, quince_row_heading());
  const Rung& rung = test::ladder_of(card).rungs.at(3);
  CHECK(text_of(rung.pours.at(0).test) == "have us test");
  CHECK(rung.notes.size() == 1);
}

TEST_CASE("a band that is open at an end is said in words") {
  Plan plan = quince_row_plan();
  plan.steps.at(3).accept[Reading::total_alkalinity] = {110, {}};
  plan.steps.at(3).outcomes.erase(plan.steps.at(3).outcomes.begin() + 1);
  const Document card = startup_document(plan, quince_row_heading());
  CHECK(says(card, "110 or more"));
  check_rules(card, plan);
}

TEST_CASE("an unmet target is said with what is reached, why and what to do") {
  Plan plan = quince_row_plan();
  Unmet unmet;
  unmet.reading = Reading::calcium_hardness;
  unmet.low = 175;
  unmet.high = 250;
  unmet.reached = 420;
  unmet.reason = {"calcium_hardness_too_high", {}};
  unmet.remedy = Remedy{"replace", 0.4123, "softer_water", "", {}, {}};
  CHECK_FALSE(says(quince_row_card(), "ends near"));
  plan.unmet = {unmet};
  CHECK(says(
      startup_document(plan, quince_row_heading()),
      "Calcium hardness ends near 420; the target is 175–250. No product takes calcium out. Drain "
      "41\u202F% and refill with softer water, then ask us for a new card."));
  plan.unmet[0].reason.code = "no_acid_on_shelf";
  plan.unmet[0].remedy = Remedy{"buy", {}, "", "dry_acid", 87.3, {}};
  CHECK(says(startup_document(plan, quince_row_heading()), "Get at least 90\u202Fg of dry acid"));
}

TEST_CASE("what keeps people out stands above everything else, with what to buy and how much") {
  Plan plan = quince_row_plan();
  Unmet unmet;
  unmet.reading = Reading::ph;
  unmet.low = 7.4;
  unmet.high = 7.6;
  unmet.reached = 8.1;
  unmet.reason = {"no_acid_on_shelf", {}};
  unmet.remedy = Remedy{"buy", std::nullopt, "", "dry_acid", 62, {}};
  unmet.closes_gate = true;
  plan.unmet = {unmet};
  plan.gate_closed = unmet.reason;
  plan.cautions = {{"stabiliser_not_tested", {{"most_mg_l", 100.0}, {"no_more_from_mg_l", 50.0}}}};
  const std::string text = test::text_of(startup_document(plan, quince_row_heading()));
  const auto notice = text.find("*pH* would end near 8.1; to get in: 7.2–7.8.");
  REQUIRE(notice != std::string::npos);
  CHECK(notice < text.find("1340"));
  CHECK(text.find("Get at least 70\u202Fg of dry acid") != std::string::npos);
  CHECK(text.find("Not every target") == std::string::npos);
  const auto caution = text.find("was not tested");
  REQUIRE(caution != std::string::npos);
  CHECK(caution < text.find("Sodium bicarbonate"));
  // The last rung is no gate that anybody passes.
  CHECK(text.find("Do not get in: first what stands at the top of this card") != std::string::npos);
  CHECK(text.find("get in only when all are true") == std::string::npos);
}

TEST_CASE("a gate that time opens is waited for at the gate") {
  Plan plan = quince_row_plan();
  Unmet unmet;
  unmet.reading = Reading::free_chlorine;
  unmet.low = 3;
  unmet.high = 5;
  unmet.reached = 12;
  unmet.reason = {"sanitizer_too_high", {{"hours_low", 4.0}, {"hours_high", 60.0}}};
  unmet.remedy = Remedy{"wait", std::nullopt, "", "", std::nullopt, 15};
  unmet.closes_gate = true;
  plan.unmet = {unmet};
  plan.gate_closed = unmet.reason;
  const std::string text = test::text_of(startup_document(plan, quince_row_heading()));
  CHECK(text.find("*Free chlorine* would end near 12") < text.find("1340"));
  CHECK(text.find("get in only when all are true") != std::string::npos);
}

TEST_CASE("the foot says of what the figures are the owner's own") {
  Plan plan = quince_row_plan();
  plan.targets.readings[Reading::ph].band_is_own = true;
  const auto foot = [&] { return startup_document(plan, quince_row_heading()).foot.left; };
  CHECK(foot() == "job 7K4Q-M2 · targets: common practice* · gate: HSE HSG282");
  plan.targets.readings[Reading::ph].gate_is_own = true;
  plan.targets.readings[Reading::total_alkalinity].band_is_own = true;
  CHECK(says(startup_document(plan, quince_row_heading()),
             "* Own target figures for: pH, total alkalinity; own limits for bathing: pH."));
}

TEST_CASE("a set that asks for the gate itself is named once in the foot") {
  Plan plan = quince_row_plan();
  plan.gate_sources = {plan.targets.source};
  CHECK(startup_document(plan, quince_row_heading()).foot.left ==
        "job 7K4Q-M2 · targets and gate: common practice");
}

TEST_CASE("a rented tub's card begins with the local rules, a private one's does not") {
  Plan plan = quince_row_plan();
  plan.use = "rented";
  const Document card = startup_document(plan, quince_row_heading());
  REQUIRE(std::holds_alternative<Notice>(card.blocks.at(0).content));
  CHECK(says(card, "The local code for rented tubs"));
  CHECK(std::holds_alternative<Masthead>(quince_row_card().blocks.at(0).content));
}

TEST_CASE("without date, phone or owner the card has lines to write on, and no blanks") {
  Heading heading = quince_row_heading();
  heading.date.reset();
  heading.shop_phone.clear();
  heading.prepared_for.clear();
  const Document card = startup_document(quince_row_plan(), heading);
  const auto& facts = std::get<Masthead>(card.blocks.at(0).content).facts;
  REQUIRE(facts.size() == 3);
  CHECK(text_of(facts[0]) == "By Thrushwater Tubs");
  CHECK(std::holds_alternative<Fill>(facts[1].parts.back()));
  CHECK(test::text_of(card).find("Stuck? Call (line of") != std::string::npos);
}

TEST_CASE("names keep their letters, with real apostrophes; a phone number does not break") {
  Heading heading = quince_row_heading();
  heading.vessel_name = "Harry's *tub* {x}";
  heading.shop_phone = "01234 555-0142";
  const Document card = startup_document(quince_row_plan(), heading);
  CHECK(says(card, "Harry’s *tub* {x}"));
  CHECK(says(card, "Stuck? Call 01234\u00A0555\u20110142"));
}

TEST_CASE("amounts in ounces bring gallons and degrees Fahrenheit") {
  Plan plan = quince_row_plan();
  auto& portions = std::get<Addition>(plan.steps.at(3).what).portions;
  portions.at(0).measure = {{3.2, "oz"}, {6, "us_tablespoon"}};
  Heading heading = quince_row_heading();
  heading.weighs_in = UnitSystem::us;
  heading.measures_in = UnitSystem::us;
  const Document card = startup_document(plan, heading);
  const Rung& rung = test::ladder_of(card).rungs.at(2);
  CHECK(rung.pours.at(0).amount.text == "3.2\u202Foz\u00A0(weight)");
  CHECK(rung.pours.at(0).amount.spoons == "6 level tablespoons (15\u202FmL), or weigh it");
  CHECK(text_of(std::get<Masthead>(card.blocks.at(0).content).figure) == "354\u202FUS\u00A0gal");
  CHECK(says(card, "Fill, then heat to 81\u202F°F"));
}

TEST_CASE("a card without a pour is in the units that the job is in, too") {
  Plan plan = quince_row_plan();
  plan.steps.erase(plan.steps.begin() + 2, plan.steps.end() - 1);
  Heading heading = quince_row_heading();
  heading.measures_in = UnitSystem::us;
  const Document card = startup_document(plan, heading);
  CHECK(text_of(std::get<Masthead>(card.blocks.at(0).content).figure) == "354\u202FUS\u00A0gal");
}

TEST_CASE("what pH does by itself names the acid at hand, or that there is none") {
  Plan plan = quince_row_plan();
  plan.drift.acid = "muriatic_acid";
  CHECK(says(startup_document(plan, quince_row_heading()), "muriatic acid in small amounts"));
  plan.drift.acid.clear();
  CHECK(says(startup_document(plan, quince_row_heading()), "your shelf has none"));
}

TEST_CASE("a shop's logo stands in the sheet's head, and is called after the shop") {
  Heading heading = quince_row_heading();
  CHECK_FALSE(
      std::get<Masthead>(startup_document(quince_row_plan(), heading).blocks.at(0).content).logo);
  heading.logo = Logo{"bytes", 40, 20};
  const Document card = startup_document(quince_row_plan(), heading);
  const std::optional<Picture>& logo = std::get<Masthead>(card.blocks.at(0).content).logo;
  REQUIRE(logo);
  CHECK(logo->png == "bytes");
  CHECK(logo->alt == "logo of Thrushwater Tubs");
}

TEST_CASE("a full tub has no fill rung, and its first rung asks for the test again") {
  Plan plan = quince_row_plan();
  plan.steps.erase(plan.steps.begin());
  plan.steps.front().what = Replace{0.3, "source_water"};
  const Document card = startup_document(plan, quince_row_heading());
  const Rung& first = test::ladder_of(card).rungs.at(0);
  CHECK(text_of(first.title) == "Drain 400\u202FL (30\u202F%), refill with the same water");
  CHECK(text_of(first.notes.at(0)).starts_with("Test before you begin."));
}

TEST_CASE("how much of the sanitizer works at once is said with the band that goes by it") {
  Plan plan = quince_row_plan();
  CHECK_FALSE(says(startup_document(plan, quince_row_heading()), "works at once"));
  ActiveSanitizer active;
  active.hocl_mg_l = Interval{0.3, 0.4, 0.6};
  active.ocl_mg_l = Interval{0.1, 0.2, 0.3};
  active.bound_chlorine_mg_l = Interval{2.1, 2.4, 2.6};
  active.share = {0.101, 0.13, 0.194};
  plan.active_sanitizer = active;
  Document card = startup_document(plan, quince_row_heading());
  CHECK(says(card, "10–20\u202F% works at once; stabilizer stores about 80\u202F%"));
  CHECK(says(card, "go by the whole figure, 3–5"));
  active.bound_chlorine_mg_l = Interval{0, 0, 0};
  active.share = {0.4, 0.5, 0.6};
  plan.active_sanitizer = active;
  card = startup_document(plan, quince_row_heading());
  CHECK(says(card, "40–60\u202F% works at once; the higher pH is, the less"));
}

TEST_CASE("a share is never rounded to none or to all") {
  Plan plan = quince_row_plan();
  ActiveSanitizer active;
  active.hocl_mg_l = Interval{0.05, 0.1, 0.2};
  active.ocl_mg_l = Interval{0.01, 0.02, 0.03};
  active.bound_chlorine_mg_l = Interval{29, 29.88, 30};
  active.share = {0.0012, 0.0033, 0.0161};
  plan.active_sanitizer = active;
  const Document card = startup_document(plan, quince_row_heading());
  CHECK(says(card, "0.1–1.7\u202F% works at once; stabilizer stores about 99.6\u202F%"));
}

TEST_CASE(
    "dichlor hands over at an amount that is rounded down, with the card, or from the start") {
  Plan plan = quince_row_plan();
  const auto card = [&] { return startup_document(plan, quince_row_heading()); };
  plan.hand_over = HandOver{"sodium_hypochlorite", 30, 87.9};
  CHECK(says(card(), "After 87\u202Fg of dichlor in all"));
  // What this card pours is as much already.
  plan.hand_over->dichlor_g = 3;
  CHECK(says(card(),
             "With this card\u2019s dichlor, stabilizer (cyanuric acid) reaches 30\u202Fmg/L"));
  plan.hand_over->dichlor_g = 0;
  CHECK(says(card(), "use liquid chlorine (sodium hypochlorite) from the start, no dichlor."));
  // So little that nobody would count it.
  std::erase_if(plan.steps, [](const Step& step) {
    const auto* const addition = std::get_if<Addition>(&step.what);
    return addition != nullptr && addition->product == "dichlor_dihydrate";
  });
  plan.hand_over->dichlor_g = 0.03;
  CHECK(says(card(), "use liquid chlorine (sodium hypochlorite) from the start, no dichlor."));
  CHECK_FALSE(says(card(), "0\u202Fg of dichlor"));
}

TEST_CASE("what is too fine for ounces stands in grams, never as none") {
  Plan plan = quince_row_plan();
  auto& portions = std::get<Addition>(plan.steps.at(3).what).portions;
  portions.at(0).amount_g = 0.6;
  portions.at(0).measure = {{0.6 / 28.35, "oz"}};
  Heading heading = quince_row_heading();
  heading.weighs_in = UnitSystem::us;
  const Document card = startup_document(plan, heading);
  CHECK(test::ladder_of(card).rungs.at(2).pours.at(0).amount.text == "0.6\u202Fg");
}

TEST_CASE("tablets wait for days") {
  Plan plan = quince_row_plan();
  auto& portions = std::get<Addition>(plan.steps.at(3).what).portions;
  portions.at(0).wait_minutes = 3 * 24 * 60;
  const Document card = startup_document(plan, quince_row_heading());
  CHECK(text_of(test::ladder_of(card).rungs.at(2).pours.at(0).wait) == "3\u202Fdays");
}

TEST_CASE("a blend at the fill says how much of each water, and that the tap is tested before") {
  Plan plan = quince_row_plan();
  plan.steps.insert(plan.steps.begin() + 1, Step{Replace{0.45, "second_source"}, 1});
  const Document card = startup_document(plan, quince_row_heading());
  CHECK(says(card, "600\u202FL (45\u202F%) of your second water, the other 740\u202FL"));
  CHECK(says(card, "Test the tap again before you fill."));
}

TEST_CASE(
    "a full tub that is only heated has one rung, the gate, which says what falls by itself") {
  Plan plan = quince_row_plan();
  Step heat{Heat{38}, 1};
  heat.accept[Reading::free_chlorine] = {3, 5};
  heat.outcomes = {{Reading::free_chlorine, false, TestOutcome::When::over,
                    TestOutcome::Action::wait_and_test, 1}};
  plan.steps = {heat};
  const Document card = startup_document(plan, quince_row_heading());
  const std::vector<Rung>& rungs = test::ladder_of(card).rungs;
  REQUIRE(rungs.size() == 1);
  CHECK(text_of(rungs[0].key) == "1");
  CHECK(text_of(rungs[0].title) == "At 38\u202F°C, get in only when all are true:");
  CHECK(says(card, "Free chlorine over 5: test again in 1\u202Fh."));
  CHECK(says(card, "Test before you begin."));
}

TEST_CASE("a shell that bears less has its own caution") {
  Heading heading = quince_row_heading();
  CHECK_FALSE(says(startup_document(quince_row_plan(), heading), "stir until none is left"));
  heading.shell = "vinyl";
  CHECK(says(startup_document(quince_row_plan(), heading), "stir until none is left"));
}

TEST_CASE("water that is warm already need not be warmer than it is poured into elsewhere") {
  Plan plan = quince_row_plan();
  plan.steps.erase(plan.steps.begin(), plan.steps.begin() + 2);
  plan.start.temperature_c = 37;
  plan.assumed.push_back({"dosing_temperature_c", {{"value", 27.0}, {"unit", std::string("°C")}}});
  const Document card = startup_document(plan, quince_row_heading());
  CHECK(says(card, "Water 27\u202F°C or warmer"));
  CHECK(says(card, "dosing\u00A027\u202F°C"));
}

TEST_CASE("every word on a card is the language's or the job's, none the program's") {
  Plan plan = quince_row_plan();
  plan.steps.push_back(rounds_of_acid());
  plan.steps.back().number = 8;
  plan.steps.at(4).test_too_coarse = true;
  plan.fingerprint = "000000";
  plan.gate_sources = {"1"};
  plan.use = "rented";
  Unmet unmet;
  unmet.reading = Reading::ph;
  unmet.high = 7.6;
  unmet.reached = 8;
  unmet.reason.code = "no_acid_on_shelf";
  unmet.remedy = Remedy{"buy", {}, "", "dry_acid", 87.3, {}};
  plan.unmet = {unmet};
  Heading heading;
  heading.date = CalendarDate{2026, 5, 4};
  heading.shell = "acrylic";
  heading.vessel_name = "1";
  heading.shop_name = "2";
  const std::string words = words_of(startup_document(plan, heading, test::letterless_english()));
  CAPTURE(words);
  CHECK(words.find_first_of("abcdefghijklmnopqrstuvwyzABCDEFGHIJKLMNOPQRSTUVWXYZ") ==
        std::string::npos);
}

TEST_CASE("the climb of pH is said only where it leaves its band") {
  Plan plan = quince_row_plan();
  CHECK(says(startup_document(plan, quince_row_heading()), "pH climbs by itself, to about 8.4"));
  plan.drift.ph_at_air = 7.6;
  CHECK_FALSE(says(startup_document(plan, quince_row_heading()), "climbs"));
}

TEST_CASE("the foot names job, targets and gate; the file names shop, date and job") {
  const Document card = quince_row_card();
  CHECK(card.foot.left == "job 7K4Q-M2 · targets: common practice · gate: HSE HSG282");
  CHECK(card.foot.page_of == "{page} of {pages}");
  CHECK(card.language == "en");
  CHECK(card.properties.fingerprint == "7K4Q-M2");
  CHECK(card.properties.author == "Thrushwater Tubs");
  CHECK(card.properties.date.month == 5);
}
