// Worked problems and dose rules of handbooks that concern water, recomputed by the engine.
#include <catch2/catch.hpp>
#include <fstream>
#include <functional>
#include <nlohmann/json.hpp>

#include "base/error.h"
#include "chemistry/breakpoint.h"
#include "chemistry/dose.h"
#include "chemistry/measures.h"
#include "reference_table.h"
#include "units/temperature.h"

using namespace tub;
using namespace tub::chemistry;
using reference::species;

namespace {

using Json = nlohmann::ordered_json;

constexpr double grams_per_pound = 453.59237;
constexpr double grams_per_ounce = grams_per_pound / 16;
constexpr double litres_per_gallon = 3.785411784;  // US

const Json& problems() {
  static const Json read =
      Json::parse(std::ifstream(TUB_SOURCE_DIR "/tests/reference/chemistry/worked_problems.json"));
  return read;
}

Water tap() {
  Readings readings;
  readings.ph = 7.5;
  readings.total_alkalinity_mg_l = 100;
  readings.calcium_hardness_mg_l = 100;
  readings.chloride_mg_l = 200;
  return water_from_readings(readings, Balance::sodium, species());
}

// mg of a pure compound per kg that changes a reading by so much.
double pure_dose(const char* compound, double WaterState::*reading, double change) {
  const double before = read(tap(), species()).*reading;
  const DoseAnswer answer =
      dose_to(tap(), {&species().compound(compound)}, {{reading, before + change}}, species());
  REQUIRE(answer.is_reached);
  return answer.mg_l[0];
}

double alkalinity_dose(const char* compound, double change) {
  return pure_dose(compound, &WaterState::total_alkalinity_mg_l, change);
}
double hardness_dose(double change) {
  return pure_dose("CaCl2", &WaterState::calcium_hardness_mg_l, change);
}
double available_chlorine(const char* compound) {
  return 1 / pure_dose(compound, &WaterState::free_chlorine_mg_l, 1);
}

// Grams of chlorine for a volume in US gallons at mg/L.
double chlorine_g(double gallons, double mg_l) { return gallons * litres_per_gallon * mg_l * 1e-3; }

// The fraction of new water that brings a total from one reading to another.
double drain_fraction(double from, double to, double fill) { return (from - to) / (from - fill); }

double after_blends(double from, double fill, double fraction, int times) {
  Water water = add(Water{}, "H3Cy", from, species());
  const Water other = add(Water{}, "H3Cy", fill, species());
  for (int i = 0; i < times; ++i) water = blend(water, other, fraction);
  return read(water, species()).cyanuric_acid_mg_l;
}

// The trade's own rules, where the problem is the rule: lb per 10 mg/L and 10,000 gal.
double by_rule(double pounds, double gallons, double change) {
  return pounds * change / 10 * gallons / 1e4;
}

const std::map<std::string, std::function<double()>> solutions = {
    {"w001", [] { return combined_chlorine_mg_l(5, 2); }},
    {"w003", [] { return ten_times_combined_mg_l(3) * 80000 / 1e6 / 0.05; }},
    {"w004", [] { return by_rule(2.1, 60000, 50); }},
    {"w006", [] { return by_rule(0.9, 25000, 180); }},
    {"w007", [] { return 18 * 30 / 10.0; }},
    {"w009", [] { return 18 * 285000 / 120000.0 * 30 / 10; }},
    {"w021", [] { return 11 * 5000.0 / 40000 * available_chlorine("NaOCl"); }},
    {"w022", [] { return 40 * 2.5 / (35 * litres_per_gallon) * available_chlorine("NaOCl"); }},
    {"w024", [] { return chlorine_g(550, 200) / grams_per_pound; }},
    {"w025", [] { return chlorine_g(550, 200) / 0.125 / grams_per_pound; }},
    {"w027", [] { return chlorine_g(1.5e6, 2.5) / grams_per_pound; }},
    {"w028", [] { return chlorine_g(1.5e6, 2.5) / 0.125 / grams_per_pound / 10.2; }},
    {"w031", [] { return combined_chlorine_mg_l(2.3, 1.5); }},
    {"w033", [] { return ten_times_combined_less_free_mg_l(0.8, 1.5) * 208000 / 1e3 / 0.67; }},
    {"w034",
     [] { return 4 * grams_per_pound * 1e3 / alkalinity_dose("NaHCO3", 15) / litres_per_gallon; }},
    {"w036", [] { return 5.0 + 2.0; }},
    {"w037", [] { return chlorine_g(3000, 7) / 0.7 / grams_per_ounce; }},
    {"w039", [] { return chlorine_g(3000, 10) / grams_per_ounce; }},
    {"w040", [] { return chlorine_g(3000, 10) / 0.7 / grams_per_ounce; }},
    {"w042", [] { return chlorine_g(6000, 6) / 0.7 / grams_per_ounce; }},
    {"w043",
     [] {
       const Water dosed = add(tap(), "NaOCl", 10 / available_chlorine("NaOCl"), species());
       return 10 - free_chlorine_mg_l(spend_free_chlorine(dosed, 5).totals);
     }},
    {"w045", [] { return 52500.0 * 0.25 / 100; }},
    {"w061", [] { return by_rule(1.4, 250000, 30); }},
    {"w069", [] { return drain_fraction(100, 40, 0); }},
    {"w070", [] { return drain_fraction(2400, 1500, 300); }},
    {"w072", [] { return after_blends(100, 20, 0.5, 2); }},
    {"w073", [] { return alkalinity_dose("NaHCO3", 50) * 1.5 / 0.995; }},
    {"w075", [] { return 3 * 1.5 / 0.56; }},
    {"w076",
     [] {
       const double daily = 3 / available_chlorine("NaCl2Cy:2H2O");
       return read(add(Water{}, "NaCl2Cy:2H2O", 60 * daily, species()), species())
           .cyanuric_acid_mg_l;
     }},
    {"w078",
     [] { return alkalinity_dose("NaHSO4", -40) * 400 * litres_per_gallon * 1e-3 / 0.932; }},
    {"w079",
     [] {
       const double moles = alkalinity_dose("HCl", -40) / species().compound("HCl").molar_mass;
       return moles * 400 * litres_per_gallon / 10.006;
     }},
};

// mg of product per kg and mg/L of the reading that the rule is about.
const std::map<std::string, std::function<double()>> rules = {
    {"ta_up_bicarb", [] { return alkalinity_dose("NaHCO3", 1); }},
    {"ta_up_soda", [] { return alkalinity_dose("Na2CO3", 1); }},
    {"ta_down_bisulfate_93", [] { return alkalinity_dose("NaHSO4", -1) / 0.932; }},
    {"ch_up_cacl2_77", [] { return hardness_dose(1) / 0.77; }},
    {"ch_up_cacl2_80", [] { return hardness_dose(1) / 0.80; }},
    {"ch_up_cacl2_94", [] { return hardness_dose(1) / 0.94; }},
    {"ch_up_cacl2_97", [] { return hardness_dose(1) / 0.97; }},
    {"ch_up_cacl2_100", [] { return hardness_dose(1); }},
    {"cya_up", [] { return pure_dose("H3Cy", &WaterState::cyanuric_acid_mg_l, 1); }},
};

}  // namespace

TEST_CASE("worked problems that concern water come out as published or computed") {
  for (const Json& problem : problems().at("worked_examples")) {
    const std::string id = problem.at("id");
    INFO(id << ": " << problem.at("problem") << ", source " << problem.at("source")
            << ", answer in source: " << problem.at("answer_in_source"));
    REQUIRE(solutions.contains(id));
    const double answer = problem.at("answer");
    CHECK(solutions.at(id)() == Approx(answer).epsilon(problem.at("rel_tol").get<double>()));
  }
}

TEST_CASE("handbook dose rules have their exact figure by stoichiometry") {
  for (const auto& [id, grams] : rules) {
    const auto& list = problems().at("rules");
    const auto rule = std::find_if(list.begin(), list.end(),
                                   [&, name = id](const Json& r) { return r.at("id") == name; });
    REQUIRE(rule != list.end());
    INFO(id);
    CHECK(grams() == Approx(rule->at("g_per_1000_L_per_mg_L").get<double>()).epsilon(1e-4));
  }
}

TEST_CASE("the two rules of breakpoint differ, and each is itself") {
  CHECK(ten_times_combined_mg_l(0.8) == Approx(8));
  CHECK(ten_times_combined_less_free_mg_l(0.8, 1.5) == Approx(6.5));
  CHECK(ten_times_combined_less_free_mg_l(0.1, 3) == 0);
  CHECK(stoichiometric_breakpoint_mg_l(0.8) == Approx(0.4));
  CHECK_THROWS_AS(combined_chlorine_mg_l(1, 2), Error);
}
