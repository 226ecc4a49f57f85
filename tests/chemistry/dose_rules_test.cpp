// Dose rules of handbooks and published dosing problems: the trade's answer, and beside it the
// exact one with the difference. docs/planning.md names those that are off.
#include <fmt/format.h>

#include <catch2/catch.hpp>
#include <cmath>
#include <map>
#include <nlohmann/json.hpp>

#include "base/error.h"
#include "chemistry/dose.h"
#include "project_text.h"
#include "reference_table.h"

using namespace tub;
using namespace tub::chemistry;
using reference::species;

namespace {

using Json = nlohmann::ordered_json;

/// From here on docs/planning.md names a rule: a tenth of what any test tells, and more than the
/// rounding of its figure.
constexpr double worth_naming = 0.02;

const Json& table() {
  static const Json read = Json::parse(project_text("tests/reference/chemistry/dose_rules.json"));
  return read;
}

/// Litres, grams or millilitres of a unit. Source: definitions of the international pound and the
/// US gallon.
double size_of(const std::string& unit) {
  static const std::map<std::string, double> sizes = {
      {"L", 1},     {"US gal", 3.785411784}, {"g", 1},
      {"kg", 1000}, {"oz", 28.349523125},    {"lb", 453.59237},
      {"mL", 1},    {"fl oz", 29.5735295625}};
  return sizes.at(unit);
}

double WaterState::*reading_of(const std::string& name) {
  for (const auto& key : reading_keys) {
    if (key.name == name) return key.member;
  }
  throw std::runtime_error("no reading " + name);
}

Water tap() {
  Readings readings;
  readings.ph = 7.5;
  readings.total_alkalinity_mg_l = 200;
  readings.calcium_hardness_mg_l = 100;
  readings.chloride_mg_l = 200;
  return water_from_readings(readings, Balance::sodium, species());
}

/// mg of a pure compound per kg of water that changes a reading by so much.
double pure_mg(const std::string& compound, const std::string& reading, double change) {
  const bool makes_bromine = reading == "total_bromine_mg_l";
  const Water water = makes_bromine ? add(tap(), "NaBr", 50, species()) : tap();
  const auto member = reading_of(reading);
  const double before = read(water, species()).*member;
  const DoseAnswer answer =
      dose_to(water, {&species().compound(compound)}, {{member, before + change}}, species());
  REQUIRE(answer.is_reached);
  return answer.mg_l[0];
}

/// Grams of the pure compound in a gram or mL of the product.
double share_of(const Json& row) {
  const std::string compound = row.at("compound");
  const std::string basis = row.at("basis");
  const double strength = row.at("strength");
  const double molar_mass = species().compound(compound).molar_mass;
  if (basis == "pure") return strength;
  if (basis == "mol_per_l") return strength * molar_mass * 1e-3;
  // Two moles of active oxygen, 16.00 g each, in the triple salt.
  if (basis == "active_oxygen") return strength * molar_mass / (2 * 15.999);
  return strength * pure_mg(compound, "free_chlorine_mg_l", 1);
}

/// Grams or mL of the product that the engine asks for.
double exact(const Json& row) {
  const double mg = pure_mg(row.at("compound"), row.at("reading"), row.at("change"));
  const double litres = row.at("volume").get<double>() * size_of(row.at("volume_unit"));
  return mg * 1e-3 * litres / share_of(row);
}

/// Grams or mL of the product that a handbook says.
double stated(const Json& row) { return row.at("amount").get<double>() * size_of(row.at("unit")); }

/// In percent, to so many digits; never a zero with a sign.
std::string percent(double stated, double exact, int digits) {
  const double scale = std::pow(10, digits);
  const double rounded = std::round(100 * scale * (stated / exact - 1)) / scale;
  return rounded == 0 ? "0 %" : fmt::format("{:+.{}f} %", rounded, digits);
}

/// A rule's line in docs/planning.md.
std::string line_of(const Json& row) {
  const double unit = size_of(row.at("unit"));
  return fmt::format("| {}, {}: {:+g} mg/L in {:g} {} | {:g} {} | {:.4g} {} | {} | {} |",
                     row.at("chemical").get<std::string>(), row.at("effect").get<std::string>(),
                     row.at("change").get<double>(), row.at("volume").get<double>(),
                     row.at("volume_unit").get<std::string>(), row.at("amount").get<double>(),
                     row.at("unit").get<std::string>(), exact(row) / unit,
                     row.at("unit").get<std::string>(), percent(stated(row), exact(row), 0),
                     row.at("source").get<std::string>());
}

}  // namespace

TEST_CASE("a dose by formula is what stoichiometry says of every handbook rule") {
  for (const Json& row : table().at("rules")) {
    INFO(row.at("id"));
    const double reference = row.at("exact").at("amount").get<double>();
    CHECK(exact(row) == Approx(reference).epsilon(1e-3));
  }
}

TEST_CASE("handbook rules are right to a fifth, and the docs name each that is not to 2 %") {
  const std::string docs = project_text("docs/planning.md");
  for (const Json& row : table().at("rules")) {
    if (row.at("amount").is_null()) continue;
    const double difference = stated(row) / exact(row) - 1;
    INFO(line_of(row));
    CHECK(std::abs(difference) < 0.20);
    const bool is_named = docs.find(line_of(row)) != std::string::npos;
    CHECK(is_named == (std::abs(difference) >= worth_naming));
  }
}

TEST_CASE("published dosing problems: the trade's rule gives the printed answer") {
  for (const Json& row : table().at("problems")) {
    const Json& rule = row.at("rule");
    const double volumes = row.at("volume").get<double>() * size_of(row.at("volume_unit")) /
                           (rule.at("volume").get<double>() * size_of(rule.at("volume_unit")));
    const double answer = rule.at("amount").get<double>() * volumes *
                          row.at("change").get<double>() / rule.at("change").get<double>();
    INFO(row.at("id") << ": " << row.at("problem") << ", source " << row.at("source"));
    CHECK(answer ==
          Approx(row.at("answer").get<double>()).epsilon(row.at("rel_tol").get<double>()));
  }
}

TEST_CASE("published dosing problems: the exact answer, and how far the printed one is from it") {
  const std::string docs = project_text("docs/planning.md");
  for (const Json& row : table().at("problems")) {
    const std::string unit = row.at("unit") == "L" ? "mL" : row.at("unit").get<std::string>();
    const double in_unit = row.at("unit") == "L" ? 1e-3 : 1;
    const double engine = exact(row) / size_of(unit) * in_unit;
    const double answer = row.at("answer");
    const std::string line = fmt::format(
        "| {} | {:g} {} | {:.4g} {} | {} | {} |", row.at("problem").get<std::string>(), answer,
        row.at("unit").get<std::string>(), engine, row.at("unit").get<std::string>(),
        percent(answer, engine, 1), row.at("source").get<std::string>());
    INFO(line);
    CHECK(docs.find(line) != std::string::npos);
  }
}

TEST_CASE("dichlor leaves 0.91 and trichlor 0.61 mg/L of cyanuric acid for each of chlorine") {
  const auto left = [](const char* compound) {
    const Water water = add(Water{}, compound, 10, species());
    const WaterState state = read(water, species());
    return state.cyanuric_acid_mg_l / state.free_chlorine_mg_l;
  };
  // Source: stoichiometry, quoted by serviceindustrynews.net 2021-12-31.
  CHECK(left("NaCl2Cy:2H2O") == Approx(0.91).margin(0.005));
  CHECK(left("Cl3Cy") == Approx(0.61).margin(0.005));
}

TEST_CASE("rules that cannot be answered are about compounds that no product brings") {
  for (const Json& row : table().at("not_answered")) {
    INFO(row.at("id"));
    CHECK_THROWS_AS(species().compound(row.at("compound").get<std::string>()), Error);
  }
}
