// Every way to keep a tub clean: doses against published figures, banks, hand-over, tablets, and
// what of the sanitizer works.
#include "planning/goals/sanitizer.h"

#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>

#include "data_files.h"
#include "planning/make_plan.h"
#include "planning/water/active_sanitizer.h"
#include "sample_job.h"

namespace tub::planning {
namespace {

PlanRequest request_with(const std::string& kind, const std::vector<std::string>& products) {
  PlanRequest request = sample_request();
  request.sanitizer.kind = kind;
  std::erase_if(request.shelf, [](const ShelfItem& item) {
    return item.product.in_group("sanitizer") || item.product.in_group("oxidiser");
  });
  for (const std::string& id : products) request.shelf.push_back(shelf_item(id));
  return request;
}

const Addition* addition_of(const Plan& plan, const std::string& product) {
  for (const Step& step : plan.steps) {
    const auto* addition = std::get_if<Addition>(&step.what);
    if (addition != nullptr && addition->product == product) return addition;
  }
  return nullptr;
}

const Step& step_of(const Plan& plan, const std::string& product) {
  const auto found = std::find_if(plan.steps.begin(), plan.steps.end(), [&](const Step& step) {
    const auto* addition = std::get_if<Addition>(&step.what);
    return addition != nullptr && addition->product == product;
  });
  REQUIRE(found != plan.steps.end());
  return *found;
}

const Unmet* unmet_of(const Plan& plan, Reading reading) {
  const auto found = std::find_if(plan.unmet.begin(), plan.unmet.end(),
                                  [&](const Unmet& unmet) { return unmet.reading == reading; });
  return found == plan.unmet.end() ? nullptr : &*found;
}

bool is_assumed(const Plan& plan, const std::string& code) {
  return std::any_of(plan.assumed.begin(), plan.assumed.end(),
                     [&](const Reason& reason) { return reason.code == code; });
}

void put_in_tub(PlanRequest& request, const std::string& key, double value) {
  request.water_is_in_tub = true;
  request.water.readings[key] = {value, "photometer"};
}

/// Water of a reading's worth of nothing but that, with bromide to be woken.
double raised(Reading reading, const Supply& supply, double mg_l) {
  const Bench bench(species_table());
  Water water;
  water.totals[Component::bromide] = 1e-3;
  if (reading == Reading::free_chlorine) water.totals[Component::bromide] = 0;
  return bench.reading(reading, supply.add_to(water, mg_l));
}

}  // namespace

TEST_CASE("a gram of each sanitizer brings what stoichiometry says") {
  // Source: tests/reference/planning/sanitizer_rules.csv.
  for (const auto& row : testing::reference_rows("sanitizer_rules.csv")) {
    CAPTURE(row.at("id"));
    ShelfItem item = shelf_item(row.at("product"));
    item.product = with_strength(item.product, std::stod(row.at("strength")), row.at("basis"));
    const Supply supply(item, species_table());
    const Reading reading = *reading_named(row.at("reading"));
    const double mg_l = std::stod(row.at("per_1000_l")) * supply.mg_per_size() * 1e-3;
    CHECK(raised(reading, supply, mg_l) == Approx(1).epsilon(1e-3));
  }
}

TEST_CASE("chlorine, alkalinity and hardness of a dose are those of the reference program") {
  // Source: tests/reference/chemistry/sanitizer_doses.csv, rows that nothing has consumed yet.
  const std::map<std::string, std::string> product_of = {{"NaCl2Cy:2H2O", "dichlor_dihydrate"},
                                                         {"Ca(OCl)2", "calcium_hypochlorite"},
                                                         {"NaOCl", "sodium_hypochlorite"}};
  int rows = 0;
  for (const auto& row : testing::reference_rows("../chemistry/sanitizer_doses.csv")) {
    const auto found = product_of.find(row.at("compound"));
    if (found == product_of.end() || row.at("stage") != "dissolved") continue;
    CAPTURE(row.at("case_id"));
    const ShelfItem item = shelf_item(found->second);
    const Supply supply(item, species_table());
    const double mg_l = std::stod(row.at("dose_mgL")) / item.product.parts.front().mass_fraction;
    const Water dosed = supply.add_to({}, mg_l);
    const double chlorine = free_chlorine_mg_l(dosed.totals);
    // The dihydrate's row has lost a little of its water: more chlorine in its gram.
    const double drier = item.product.parts.size() > 1 && found->first == "NaCl2Cy:2H2O"
                             ? item.product.parts.back().mass_fraction
                             : 0;
    CHECK(chlorine ==
          Approx(std::stod(row.at("chlorine_added_mgL_Cl2"))).epsilon(1e-3 + 2 * drier));
    ++rows;
  }
  CHECK(rows > 30);
}

TEST_CASE("1500 L from none to 3 mg/L takes 8.0 g of dichlor, and two months of it 164 mg/L") {
  // Source: own problems from public formulas, 8.036 g and 163.8 mg/L of cyanuric acid.
  ShelfItem item = shelf_item("dichlor_dihydrate");
  const Supply supply(item, species_table());
  CHECK(raised(Reading::free_chlorine, supply, 8.036 / 1.5) == Approx(3).epsilon(1e-3));
  const Bench bench(species_table());
  const Water after = supply.add_to({}, 60 * 8.036 / 1.5);
  CHECK(after.totals[Component::cyanurate] * 129.075e3 == Approx(163.8).epsilon(2e-3));
}

TEST_CASE("every sanitizer ends in its gate on the sample tub") {
  const std::vector<std::pair<std::string, std::vector<std::string>>> kinds = {
      {"dichlor", {"dichlor_dihydrate"}},
      {"dichlor_then_hypochlorite", {"dichlor_dihydrate", "sodium_hypochlorite"}},
      {"sodium_hypochlorite", {"sodium_hypochlorite"}},
      {"calcium_hypochlorite", {"calcium_hypochlorite"}},
      {"two_step_bromine", {"sodium_bromide", "peroxymonosulfate"}},
      {"two_step_bromine", {"sodium_bromide", "sodium_hypochlorite"}},
      {"bromine_tablets", {"bromine_tablets"}},
      {"bromine_tablets", {"bromine_tablets", "sodium_bromide", "peroxymonosulfate"}}};
  for (const auto& [kind, products] : kinds) {
    CAPTURE(kind, products);
    const Plan plan = planned(request_with(kind, products));
    const Reading reading = sanitizer_row(planning_data().sanitizers, kind).reading;
    CHECK(plan.unmet.empty());
    CHECK(plan.gate.at(reading).holds(value_of(reading, plan.final)));
    REQUIRE(plan.active_sanitizer);
    CHECK(plan.active_sanitizer->of == reading);
  }
}

TEST_CASE("two-step bromine lays in the bank, then wakes as much as the gate asks for") {
  const Plan plan =
      planned(request_with("two_step_bromine", {"sodium_bromide", "peroxymonosulfate"}));
  const Addition* bank = addition_of(plan, "sodium_bromide");
  const Addition* oxidiser = addition_of(plan, "peroxymonosulfate");
  REQUIRE(bank != nullptr);
  REQUIRE(oxidiser != nullptr);
  // 38.63 g of pure sodium bromide to 1000 L is 30 mg/L of bromide (exact stoichiometry).
  CHECK(bank->adds_g.at("NaBr") == Approx(38.63 * 1.340).epsilon(0.05));
  CHECK(step_of(plan, "sodium_bromide").number < step_of(plan, "peroxymonosulfate").number);
  CHECK(oxidiser->spends.at("total_bromine_mg_l") == Approx(0.5 * 159.808 / 70.9));
  CHECK(step_of(plan, "peroxymonosulfate").test == Reading::total_bromine);
  CHECK(is_assumed(plan, "bromide_bank_mg_l"));
  CHECK(plan.final.free_chlorine_mg_l == Approx(0).margin(1e-9));
}

TEST_CASE(
    "the acid of an oxidiser and the base of a hypochlorite are met by the acid that is poured") {
  const auto acid = [](const std::vector<std::string>& products) {
    const Plan plan = planned(request_with("two_step_bromine", products));
    CHECK(plan.final.ph == Approx(7.5).margin(0.1));
    const Addition* addition = addition_of(plan, "dry_acid");
    return addition == nullptr ? 0.0 : addition->amount_g.value_or(0);
  };
  CHECK(acid({"sodium_bromide", "peroxymonosulfate"}) <
        acid({"sodium_bromide", "sodium_hypochlorite"}));
}

TEST_CASE("calcium hypochlorite's calcium is counted before calcium chloride is") {
  const auto chloride = [](const std::string& kind, const std::string& product) {
    const Plan plan = planned(request_with(kind, {product}));
    return addition_of(plan, "calcium_chloride_dihydrate")->adds_g.at("CaCl2:2H2O");
  };
  // 3.7 mg/L of chlorine and 0.5 of demand bring 0.78 mg/L of hardness each.
  const double less = chloride("sodium_hypochlorite", "sodium_hypochlorite") -
                      chloride("calcium_hypochlorite", "calcium_hypochlorite");
  CHECK(less * 1e3 / 1340 * 100.086 / 147.008 == Approx(0.78 * 4.2).margin(2.5));
  CHECK(less > 0);
}

TEST_CASE("dichlor hands over when its stabiliser is laid in") {
  const PlanRequest request =
      request_with("dichlor_then_hypochlorite", {"dichlor_dihydrate", "calcium_hypochlorite"});
  const Plan plan = planned(request);
  REQUIRE(plan.hand_over);
  CHECK(plan.hand_over->to == "calcium_hypochlorite");
  CHECK(plan.hand_over->cyanuric_acid_mg_l == 30);
  // 0.91 mg/L of cyanuric acid for each mg/L of chlorine; 56 % of the gram is chlorine.
  CHECK(plan.hand_over->dichlor_g == Approx(30 / 0.91 / 0.56 * 1.340).epsilon(0.01));
  CHECK_FALSE(planned(sample_request()).hand_over);
}

TEST_CASE("a tub that has its stabiliser starts with the hypochlorite") {
  PlanRequest request =
      request_with("dichlor_then_hypochlorite", {"dichlor_dihydrate", "sodium_hypochlorite"});
  put_in_tub(request, "cyanuric_acid_mg_l", 40);
  const Plan plan = planned(request);
  CHECK(addition_of(plan, "dichlor_dihydrate") == nullptr);
  CHECK(addition_of(plan, "sodium_hypochlorite") != nullptr);
  REQUIRE(plan.hand_over);
  CHECK(plan.hand_over->dichlor_g == 0);
}

TEST_CASE("tablets take days, whole ones, and only then is there a test") {
  const Plan plan = planned(request_with("bromine_tablets", {"bromine_tablets"}));
  const Step& step = step_of(plan, "bromine_tablets");
  const auto& addition = std::get<Addition>(step.what);
  REQUIRE(addition.portions.size() == 1);
  const Portion& portion = addition.portions.front();
  REQUIRE(portion.measure.size() == 1);
  CHECK(portion.measure.front().unit == "tablet");
  CHECK(portion.measure.front().count == std::floor(portion.measure.front().count));
  CHECK(*portion.amount_g == portion.measure.front().count * 20);
  CHECK(portion.wait_minutes >= 720);
  CHECK(portion.wait_minutes <= 3 * 1440);
  // What dissolves: two grams a day of each.
  const double dissolved = portion.measure.front().count * 2 * portion.wait_minutes / 1440;
  CHECK(addition.adds_g.at("C5H6BrClN2O2") == Approx(0.96 * dissolved));
  CHECK(is_assumed(plan, "tablet_dissolves_g_per_day"));
  CHECK(plan.final.free_chlorine_mg_l == Approx(0).margin(1e-9));
  const TestOutcome& last = step.outcomes.back();
  CHECK(last.action == TestOutcome::Action::wait_and_test);
  CHECK(last.hours == 24.0);
}

/// Places of these products among the steps of a plan, in that order.
std::vector<std::size_t> places_of(const Plan& plan, const std::vector<std::string>& products) {
  std::vector<std::size_t> places;
  for (const std::string& product : products) {
    for (std::size_t i = 0; i < plan.steps.size(); ++i) {
      const auto* addition = std::get_if<Addition>(&plan.steps[i].what);
      if (addition != nullptr && addition->product == product) places.push_back(i);
    }
  }
  return places;
}

bool has_note(const Step& step, const std::string& code) {
  return std::any_of(step.notes.begin(), step.notes.end(),
                     [&](const Reason& note) { return note.code == code; });
}

const std::vector<std::string> floater_shelf = {"bromine_tablets", "sodium_bromide",
                                                "peroxymonosulfate", "calcium_chloride_dihydrate"};

TEST_CASE("where bromide and an oxidiser are at hand, tablets go into the floater and keep it up") {
  const Plan plan = planned(request_with("bromine_tablets", floater_shelf));
  const std::vector<std::size_t> places = places_of(
      plan,
      {"sodium_bromide", "peroxymonosulfate", "bromine_tablets", "calcium_chloride_dihydrate"});
  REQUIRE(places.size() == 4);
  CHECK(std::is_sorted(places.begin(), places.end()));
  const Step& step = step_of(plan, "bromine_tablets");
  const auto& addition = std::get<Addition>(step.what);
  CHECK(addition.reading == Reading::total_bromine);
  CHECK(addition.adds_g.empty());
  CHECK(addition.spends.empty());
  REQUIRE(addition.portions.size() == 1);
  CHECK(addition.portions.front().measure.front().unit == "tablet");
  CHECK(*addition.amount_g == addition.portions.front().measure.front().count * 20);
  // Minutes, that chalk may not fall out with the calcium that is next, and never days.
  CHECK(addition.portions.front().wait_minutes <= 120);
  CHECK_FALSE(step.test);
  CHECK(step.accept.empty());
  CHECK(step.outcomes.empty());
  CHECK(has_note(step, "floater_keeps_it_up"));
  CHECK_FALSE(has_note(step_of(plan, "peroxymonosulfate"), "tablets_keep_it_up"));
  // What dissolves is used: the water is that of the step before.
  const WaterState& before = *plan.steps[places[1]].after;
  CHECK(step.after->total_bromine_mg_l == before.total_bromine_mg_l);
  CHECK(step.after->ph == Approx(before.ph).margin(1e-9));
  CHECK(is_assumed(plan, "tablets_replace_what_is_used"));
  CHECK(is_assumed(plan, "tablet_dissolves_g_per_day"));
  CHECK(is_assumed(plan, "sanitizer_half_life_h"));
}

// Stoichiometry: 96 % of 241.47 g/mol, two oxidising halogens, 159.81 g of bromine each.
TEST_CASE("the floater's tablets make at least the bromine that a day uses, one fewer less") {
  for (const double litres : {400.0, 1340.0, 2500.0, 9000.0}) {
    PlanRequest request = request_with("bromine_tablets", floater_shelf);
    request.tub.volume_l = litres;
    const Plan plan = planned(request);
    const double count = std::get<Addition>(step_of(plan, "bromine_tablets").what)
                             .portions.front()
                             .measure.front()
                             .count;
    CAPTURE(litres, count);
    const double held = step_of(plan, "peroxymonosulfate").after->total_bromine_mg_l;
    const double used_g = held * std::log(2.0) * 24 / 12 * litres * 1e-3;
    const double each_g = 2 * 0.96 * 2 * 159.81 / 241.47;
    // The pour before it is rounded to a spoon: a tenth.
    CHECK(count * each_g >= 0.9 * used_g);
    CHECK((count - 1) * each_g <= 1.1 * used_g);
  }
}

TEST_CASE("without tablets on the shelf a note says that they keep it up") {
  const Plan plan =
      planned(request_with("bromine_tablets", {"sodium_bromide", "peroxymonosulfate"}));
  CHECK(addition_of(plan, "bromine_tablets") == nullptr);
  CHECK(has_note(step_of(plan, "peroxymonosulfate"), "tablets_keep_it_up"));
}

TEST_CASE("a bank that alone makes the first bromine has its floater, and no day is waited") {
  PlanRequest request = request_with("bromine_tablets", floater_shelf);
  put_in_tub(request, "free_chlorine_mg_l", 2.2);
  const Plan plan = planned(request);
  CHECK(addition_of(plan, "sodium_bromide") != nullptr);
  CHECK(addition_of(plan, "peroxymonosulfate") == nullptr);
  REQUIRE(addition_of(plan, "bromine_tablets") != nullptr);
  CHECK(addition_of(plan, "bromine_tablets")->portions.front().wait_minutes <= 120);
  CHECK(unmet_of(plan, Reading::total_bromine) == nullptr);
}

TEST_CASE("a floater that is to come still comes after a retest, and goes in once") {
  PlanRequest request = request_with("bromine_tablets", floater_shelf);
  const Plan first = planned(request);
  RetestReport report;
  report.readings["total_bromine_mg_l"] = {4.8, "drop_kit"};
  report.where = "job.json: /readings/0";
  report.after_step = step_of(first, "peroxymonosulfate").number;
  request.retests = {report};
  CHECK(addition_of(planned(request), "bromine_tablets") != nullptr);
  request.retests.front().after_step = step_of(first, "bromine_tablets").number;
  CHECK(addition_of(planned(request), "bromine_tablets") == nullptr);
}

TEST_CASE("a shelf without bromide, or without its oxidiser, is told which to buy") {
  const Plan no_bank = planned(request_with("two_step_bromine", {"peroxymonosulfate"}));
  const Unmet* unmet = unmet_of(no_bank, Reading::total_bromine);
  REQUIRE(unmet != nullptr);
  CHECK(unmet->reason.code == "no_bromide_on_shelf");
  REQUIRE(unmet->remedy);
  CHECK(unmet->remedy->product == "sodium_bromide");
  CHECK(*unmet->remedy->amount_g == Approx(38.63 * 1.340 / 0.98).epsilon(0.05));
  CHECK(addition_of(no_bank, "peroxymonosulfate") == nullptr);
  const Plan no_oxidiser = planned(request_with("two_step_bromine", {"sodium_bromide"}));
  unmet = unmet_of(no_oxidiser, Reading::total_bromine);
  REQUIRE(unmet != nullptr);
  CHECK(unmet->reason.code == "no_sanitizer_on_shelf");
  CHECK(unmet->remedy->product == "peroxymonosulfate");
  CHECK(addition_of(no_oxidiser, "sodium_bromide") == nullptr);
}

TEST_CASE("a tub whose sanitizer is in its gate gets none, one above it waits for named hours") {
  PlanRequest request = sample_request();
  put_in_tub(request, "free_chlorine_mg_l", 4);
  CHECK(addition_of(planned(request), "dichlor_dihydrate") == nullptr);
  CHECK(unmet_of(planned(request), Reading::free_chlorine) == nullptr);
  put_in_tub(request, "free_chlorine_mg_l", 10);
  const Plan plan = planned(request);
  const Unmet* unmet = unmet_of(plan, Reading::free_chlorine);
  REQUIRE(unmet != nullptr);
  CHECK(unmet->reason.code == "sanitizer_too_high");
  REQUIRE(unmet->remedy);
  CHECK(unmet->remedy->kind == "wait");
  // From 10 to 5 mg/L is one half-life.
  CHECK(*unmet->remedy->hours ==
        Approx(planning_data().assumptions.sanitizer_half_life_h.value).epsilon(1e-6));
  CHECK(is_assumed(plan, "sanitizer_half_life_h"));
}

TEST_CASE("chlorine is not poured into a tub that was run on bromine") {
  PlanRequest request = sample_request();
  put_in_tub(request, "total_bromine_mg_l", 4);
  const Plan plan = planned(request);
  CHECK(addition_of(plan, "dichlor_dihydrate") == nullptr);
  const Unmet* unmet = unmet_of(plan, Reading::free_chlorine);
  REQUIRE(unmet != nullptr);
  CHECK(unmet->reason.code == "bromide_takes_the_chlorine");
  REQUIRE(unmet->remedy);
  CHECK(unmet->remedy->kind == "drain");
}

TEST_CASE("a bromine tub takes up the chlorine that is in its water") {
  PlanRequest request = request_with("two_step_bromine", {"sodium_bromide", "peroxymonosulfate"});
  put_in_tub(request, "free_chlorine_mg_l", 2.2);
  const Plan plan = planned(request);
  // 2.2 mg/L as Cl2 is 4.96 as Br2: inside the gate once the bank is there.
  CHECK(addition_of(plan, "peroxymonosulfate") == nullptr);
  CHECK(addition_of(plan, "sodium_bromide") != nullptr);
  CHECK(plan.final.total_bromine_mg_l == Approx(2.2 * 159.808 / 70.9).epsilon(1e-3));
}

TEST_CASE("a bank waits for chlorine that would make too much bromine") {
  PlanRequest request = request_with("two_step_bromine", {"sodium_bromide", "peroxymonosulfate"});
  put_in_tub(request, "free_chlorine_mg_l", 10);
  const Plan plan = planned(request);
  CHECK(addition_of(plan, "sodium_bromide") == nullptr);
  const Unmet* unmet = unmet_of(plan, Reading::total_bromine);
  REQUIRE(unmet != nullptr);
  CHECK(unmet->reason.code == "chlorine_makes_too_much_bromine");
  REQUIRE(unmet->remedy);
  CHECK(unmet->remedy->kind == "wait");
  // 10 mg/L as Cl2 is 22.5 as Br2: so many halvings down to 6.
  CHECK(*unmet->remedy->hours == Approx(planning_data().assumptions.sanitizer_half_life_h.value *
                                        std::log2(10 * 159.808 / 70.9 / 6))
                                     .epsilon(1e-3));
}

TEST_CASE("a set that forbids stabilised chlorine is obeyed by the oxidiser too") {
  PlanRequest request = request_with("two_step_bromine", {"sodium_bromide", "dichlor_dihydrate"});
  request.targets = target_set("us_mahc_2023");
  CHECK(unmet_of(planned(request), Reading::total_bromine) != nullptr);
  request.shelf.push_back(shelf_item("calcium_hypochlorite"));
  const Plan plan = planned(request);
  CHECK(unmet_of(plan, Reading::total_bromine) == nullptr);
  CHECK(addition_of(plan, "dichlor_dihydrate") == nullptr);
}

TEST_CASE("the active share is that of the reference program, at its temperature and salt") {
  // Source: tests/reference/chemistry/hypohalite_fraction.csv.
  const PlanRequest request = sample_request();
  const Situation situation(request, planning_data(), species_table());
  for (const auto& row : testing::reference_rows("../chemistry/hypohalite_fraction.csv")) {
    CAPTURE(row.at("case_id"));
    Readings readings;
    readings.temperature_c = std::stod(row.at("temp_C"));
    readings.ph = std::stod(row.at("pH"));
    readings.total_alkalinity_mg_l = 2;
    readings.free_chlorine_mg_l = 0.01;
    readings.chloride_mg_l = std::stod(row.at("NaCl_background_mgL")) * 35.45 / 58.44;
    const Water water = water_from_readings(readings, Balance::sodium, species_table());
    const Outcomes alone{read(water, species_table()), {}, {}};
    const auto active = active_sanitizer(situation, water, alone);
    REQUIRE(active);
    CHECK(active->share.value ==
          Approx(std::stod(row.at("HOCl_fraction_with_activity"))).margin(0.002));
    CHECK(active->share.low < active->share.value);
    CHECK(active->share.value < active->share.high);
    CHECK(active->share.high < 1);
    CHECK(active->hocl_mg_l->value + active->ocl_mg_l->value + active->bound_chlorine_mg_l->value ==
          Approx(0.01).epsilon(1e-6));
  }
}

TEST_CASE("cyanurate's constants alone put hypochlorous acid off by a factor of two at 38 °C") {
  // Their spread: 0.09 to 0.14 of log K at 25 °C and 0.02 for each degree further (the species
  // table).
  PlanRequest request = request_with("sodium_hypochlorite", {"sodium_hypochlorite"});
  put_in_tub(request, "cyanuric_acid_mg_l", 60);
  const Plan plan = planned(request);
  REQUIRE(plan.active_sanitizer);
  const Interval& hocl = *plan.active_sanitizer->hocl_mg_l;
  CHECK(hocl.low < hocl.value / 1.8);
  CHECK(hocl.high > hocl.value * 1.8);
  CHECK(hocl.low > 0);
  CHECK(hocl.value == Approx(plan.final.hocl_mg_l));
  // The whole is better known than its parts.
  CHECK(plan.active_sanitizer->bound_chlorine_mg_l->high < 1.5 * plan.final.free_chlorine_mg_l);
}

}  // namespace tub::planning
