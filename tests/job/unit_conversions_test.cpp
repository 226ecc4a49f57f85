// Every unit that a water report, a tape or a jug gives, read from a job.
#include <fmt/format.h>
#include <catch2/catch.hpp>
#include <map>
#include <nlohmann/json.hpp>

#include "job_test.h"
#include "project_text.h"

using namespace tub;
using namespace tub::job;
using namespace tub::job::test;

namespace {

using Json = nlohmann::ordered_json;

/// Factors and definitions. Source: named in the file itself.
Json reference() {
  return Json::parse(project_text("tests/reference/units/unit_conversions.json"));
}

/// How a job writes the units of the reference.
const std::map<std::string, std::string> spelling = {
    {"us_gallon", "US gal"},
    {"imp_gallon", "imp gal"},
    {"cubic_foot", "ft3"},
    {"cubic_inch", "in3"},
    {"cubic_metre", "m3"},
    {"us_quart", "US qt"},
    {"us_pint", "US pt"},
    {"us_cup", "US cup"},
    {"us_legal_cup_nutrition", "US legal cup"},
    {"metric_cup", "metric cup"},
    {"us_fl_oz", "US fl oz"},
    {"imp_fl_oz", "imp fl oz"},
    {"us_tablespoon", "US tbsp"},
    {"us_teaspoon", "US tsp"},
    {"metric_tablespoon", "metric tbsp"},
    {"au_tablespoon", "AU tbsp"},
    {"metric_teaspoon", "metric tsp"},
    {"imp_pint", "imp pt"},
    {"us_dry_pint", "US dry pt"},
    {"pound", "lb"},
    {"ounce", "oz"},
    {"kilogram", "kg"},
    {"foot", "ft"},
    {"inch", "in"},
    {"yard", "yd"},
    {"mg_per_L_as_CaCO3", "mg/L as CaCO3"},
    {"mmol_per_L", "mmol/L"},
    {"meq_per_L", "meq/L"},
    {"deg_german_dH", "°dH"},
    {"deg_french_fH", "°fH"},
    {"deg_english_Clark_e", "°e"},
    {"grains_per_us_gallon_gpg", "gpg"},
    {"deg_american", "°aH"},
    {"deg_russian", "°rH"},
    {"calcium_ion", "mg/L as Ca"},
    {"magnesium_ion", "mg/L as Mg"},
    {"acid_capacity_KS4_3_mmol_L", "mmol/L KS4.3"},
    {"HCO3_mg_L", "mg/L as HCO3"},
    {"deg_carbonate_hardness_dKH", "°dKH"},
};

std::string quantity(double value, const std::string& unit) {
  REQUIRE(spelling.contains(unit));
  return fmt::format("{} {}", value, spelling.at(unit));
}

Tub tub_with(const std::string& vessel) {
  return read(patched(R"({ "vessel": )" + vessel + " }")).value.request.tub;
}

/// A reading of the source water, in the unit of its key.
double water_reading(const std::string& field, const std::string& key, const std::string& text) {
  const std::string patch = R"({ "source_water": { ")" + field + R"(": ")" + text + R"(" } })";
  return read(patched(patch)).value.request.water.readings.at(key).value;
}

/// The figure of a definition that starts so: "mg_L_CaCO3", "mg_L_CaCO3_per_mg_L_Ca", "per_mg_L".
double as_calcium_carbonate(const Json& definition) {
  for (const auto& [name, value] : definition.items()) {
    if (name.starts_with("mg_L_CaCO3") || name == "per_mg_L") return value.get<double>();
  }
  FAIL("no figure");
  return 0;
}

/// The reference weighs CaCO3 at 100.0869 g/mol; printed to four or five digits.
constexpr double printed = 2e-4;

}  // namespace

TEST_CASE("a vessel's volume is read in every unit of volume") {
  for (const auto& [unit, row] : reference()["volume_to_litre"].items()) {
    CAPTURE(unit);
    const double count = 1500 / row["f"].get<double>();
    CHECK(tub_with(R"({ "volume": ")" + quantity(count, unit) + "\" }").volume_l ==
          Approx(1500).epsilon(1e-9));
  }
}

TEST_CASE("an owner's spoons and cups hold what their definitions say") {
  const Json litres = reference()["volume_to_litre"];
  for (const MeasureSystem& system : catalogue().planning.measures) {
    for (const Spoon& spoon : system.spoons) {
      CAPTURE(spoon.unit);
      REQUIRE(litres.contains(spoon.unit));
      CHECK(spoon.volume_ml == Approx(1000 * litres[spoon.unit]["f"].get<double>()).epsilon(1e-12));
    }
  }
}

TEST_CASE("a vessel's sides are read in every unit of length") {
  for (const auto& [unit, row] : reference()["length_to_metre"].items()) {
    CAPTURE(unit);
    const std::string side = quantity(2 / row["f"].get<double>(), unit);
    const std::string depth = quantity(0.5 / row["f"].get<double>(), unit);
    CHECK(tub_with(R"({ "volume": null, "dimensions": { "shape": "rectangle", "length": ")" + side +
                   R"(", "width": ")" + side + R"(", "water_depth": ")" + depth + "\" } }")
              .volume_l == Approx(2000).epsilon(1e-9));
  }
}

TEST_CASE("an amount is read in every unit of mass, but grains, which mean two things") {
  for (const auto& [unit, row] : reference()["mass_to_gram"].items()) {
    if (unit == "grain") continue;
    CAPTURE(unit);
    const std::string amount = quantity(100 / row["f"].get<double>(), unit);
    // 100 g of bicarbonate at 99.5 % are 59,272 mg as CaCO3; a rise of 40 mg/L makes it 1481.8 L.
    CHECK(read(patched(R"({ "retest_with": "drop_kit", "vessel": { "volume": null,
        "dilution": { "product": "sodium_bicarbonate", "reading": "total_alkalinity",
                      "before": "60 mg/L", "after": "100 mg/L", "amount": ")" +
                       amount + "\" } } }"))
              .value.request.tub.volume_l == Approx(1481.8).epsilon(1e-3));
  }
}

TEST_CASE("a flow in US gallons a minute, and temperatures in Fahrenheit, are what they say") {
  const double litres = reference()["pressure_flow"]["us_gpm_to_L_min"].get<double>();
  CHECK(tub_with(R"({ "volume": null, "fill": { "time": "50 min", "flow": "8 US gal/min" } })")
            .volume_l == Approx(400 * litres));
  for (const auto& point : reference()["temperature"]["points"]) {
    if (point["F"].get<double>() < 50) continue;  // no bath is so cold
    CHECK(tub_with(fmt::format(R"({{ "bathing_temperature": "{} °F" }})", point["F"].get<double>()))
              .bathing_temperature_c == Approx(point["C"].get<double>()).margin(5e-5));
  }
}

TEST_CASE("hardness is read in every unit, as calcium, as magnesium and in total") {
  const std::map<std::string, std::string> keys = {
      {"calcium_hardness", "calcium_hardness_mg_l"},
      {"magnesium_hardness", "magnesium_hardness_mg_l"},
      {"total_hardness", "total_hardness_mg_l"}};
  for (const auto& [unit, definition] : reference()["hardness_definitions"].items()) {
    for (const auto& [field, key] : keys) {
      if (unit == "calcium_ion" && field != "calcium_hardness") continue;
      if (unit == "magnesium_ion" && field != "magnesium_hardness") continue;
      CAPTURE(unit, field);
      const double count = 120 / as_calcium_carbonate(definition);
      CHECK(water_reading(field, key, quantity(count, unit)) == Approx(120).epsilon(printed));
    }
  }
}

TEST_CASE("alkalinity is read as bicarbonate, as acid capacity and in degrees") {
  for (const auto& [unit, definition] : reference()["alkalinity_definitions"].items()) {
    CAPTURE(unit);
    const double count = 62 / as_calcium_carbonate(definition);
    CHECK(water_reading("total_alkalinity", "total_alkalinity_mg_l", quantity(count, unit)) ==
          Approx(62).epsilon(printed));
  }
}

TEST_CASE("bromine read on a chlorine scale is more by the ratio of their masses") {
  const double ratio = reference()["halogen"]["br2_per_cl2_mass"].get<double>();
  CHECK(water_reading("total_bromine", "total_bromine_mg_l", "2 mg/L as Cl2") ==
        Approx(2 * ratio).epsilon(5e-4));
}
