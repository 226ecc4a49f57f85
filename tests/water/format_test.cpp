// The `water` format: what a line gives, and what a bad line is told.
#include "water/format.h"

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include "chemistry/readings.h"
#include "project_text.h"

namespace {

using Json = nlohmann::ordered_json;

std::string data_file(const std::string& name) {
  return tub::project_text("src/chemistry/data/" + name);
}

const tub::water::WaterTables& tables() {
  static const tub::water::WaterTables read = {
      tub::water::SpeciesTable::parse(data_file("species.json"), "species.json"),
      tub::water::parse_index_tables(data_file("table_index.json"), "table_index.json")};
  return read;
}

Json answer(const std::string& line) {
  return Json::parse(tub::water::answer_water_line(line, 3, tables()).text);
}

std::string error_of(const std::string& line) {
  const tub::water::WaterAnswer found = tub::water::answer_water_line(line, 3, tables());
  CHECK(found.is_error);
  return Json::parse(found.text).at("error");
}

const std::string tub_water =
    R"("temperature_c": 27, "ph": 7.5, "total_alkalinity_mg_l": 80, "calcium_hardness_mg_l": 150,
       "chloride_mg_l": 200)";

std::string with_steps(const std::string& steps) {
  return "{\"id\": \"a\", " + tub_water + ", \"steps\": [" + steps + "]}";
}

}  // namespace

TEST_CASE("a line gives the start state and one state a step") {
  const Json found = answer(with_steps(R"({"add": "NaHCO3", "mg_l": 24.8}, {"heat_to_c": 38})"));
  CHECK(found.at("id") == "a");
  REQUIRE(found.at("states").size() == 3);
  CHECK(found["states"][0].at("ph").get<double>() == Approx(7.5).margin(1e-9));
  CHECK(found["states"][1].at("total_alkalinity_mg_l").get<double>() ==
        Approx(80 + 24.8 * 50.043 / 84.006).epsilon(1e-9));
  CHECK(found["states"][2].at("temperature_c") == 38);
  CHECK(found["states"][2].size() ==
        tub::chemistry::reading_keys.size() + tub::chemistry::derived_keys.size());
}

TEST_CASE("steps add what they found to their state") {
  const auto last = [](const std::string& step) { return answer(with_steps(step))["states"][1]; };
  CHECK(last(R"({"equilibrate_log10_pco2_atm": -3.4})").at("carbon_dioxide_lost_mg_l") > 0);
  CHECK(last(R"({"dose": ["NaHSO4"], "to": {"ph": 7.2}})").at("dosed_mg_l").at("NaHSO4") > 1);
  CHECK(last(R"({"dose": ["NaHCO3"], "to": {"ph": 9.5}})").at("unreachable").at("why") ==
        "levels_off");
  CHECK(
      answer(with_steps(
          R"({"add": "Na2CO3", "mg_l": 60}, {"precipitate_to_saturation_index": 0})"))["states"][2]
          .at("precipitated_mg_l") > 1);
}

TEST_CASE("what has no value is null, what was not given is 0") {
  const Json state =
      answer(R"({"temperature_c": 20, "ph": 7.5, "total_alkalinity_mg_l": 60})")["states"][0];
  CHECK(state.at("saturation_index").is_null());
  CHECK(state.at("copper_mg_l") == 0);
}

TEST_CASE("a line may ask for what else can be read") {
  const Json state =
      answer(
          "{" + tub_water +
          R"(, "also": ["conductivity_us_cm", "titrated_alkalinity_mg_l", "table_index_linear", "spread"]})")
          .at("states")[0];
  CHECK(state.at("conductivity_us_cm") > 500);
  CHECK(state.at("titrated_alkalinity_mg_l").get<double>() == Approx(80).margin(2));
  // 7.5 + 0.66 (27 °C) + 1.8 + 1.92 - 12.1, by the factor tables.
  CHECK(state.at("table_index_linear").get<double>() == Approx(-0.2225).margin(0.0005));
  CHECK(state.at("spread").at("saturation_index") > 0.01);
  CHECK_THAT(error_of("{" + tub_water + R"(, "also": ["conductivty_us_cm"]})"),
             Catch::Contains("did you mean conductivity_us_cm?"));
}

TEST_CASE("chlorine beside cyanurate shows how far it may be off") {
  const Json state = answer("{" + tub_water +
                            R"(, "free_chlorine_mg_l": 3, "cyanuric_acid_mg_l": 40})")["states"][0];
  CHECK(state.at("spread").at("hocl_mg_l") > 0.1 * state.at("hocl_mg_l").get<double>());
}

TEST_CASE("an acid that is asked to raise pH is an error with the nearest reading") {
  const Json found = answer(with_steps(R"({"dose": ["NaHSO4"], "to": {"ph": 8}})"));
  CHECK(found.at("line") == 3);
  CHECK_THAT(found.at("error").get<std::string>(), Catch::Contains("on the wrong side"));
  CHECK(found.at("states")[1].at("unreachable").at("why") == "moves_away");
}

TEST_CASE("every kind of bad line says what is wrong, and where") {
  const std::pair<std::string, std::string> cases[] = {
      {R"({"ph": 7.5)", "line 3, column 11: the JSON ends too early"},
      {R"([1, 2])", "line 3: /: expected an object with a start state, found a list"},
      {R"({"ph": 7.5})", "line 3: /: the field \"temperature_c\" is missing"},
      {R"({"ph": 74, "temperature_c": 20})",
       "line 3: /ph: expected a number from 2 to 12, found 74"},
      {R"({"ph": 7.5, "temperature_c": 20, "sodium_mg_l": -1})",
       "line 3: /sodium_mg_l: expected a number from 0 to 10000, found -1"},
      {R"({"ph": 7.5, "temperature_c": 20, "calcium_hardnes_mg_l": 1})",
       "did you mean calcium_hardness_mg_l?"},
      {R"({"ph": 7.5, "ph": 7.6, "temperature_c": 20})", "stands here more than once"},
      {R"({"ph": 10.5, "temperature_c": 20, "total_alkalinity_mg_l": 1})",
       "the start state: inorganic carbon would be negative"},
      {R"({"ph": 4, "temperature_c": 20, "total_alkalinity_mg_l": 400})",
       "the start state: inorganic carbon would boil off"},
      {R"({"ph": 7, "temperature_c": 20, "total_alkalinity_mg_l": 50, "balance": "calcium"})",
       "\"calcium\" is not known here"},
      {with_steps(R"({"add": "NaHCO", "mg_l": 1})"),
       "line 3: /steps/0/add: the compound \"NaHCO\" is not known (did you mean NaHCO3?)"},
      {with_steps(R"({"add": "NaHCO3"})"), "/steps/0: the field \"mg_l\" is missing"},
      {with_steps(R"({"add": "NaHCO3", "mg_l": -2})"), "/steps/0/mg_l: expected a number from 0"},
      {with_steps(R"({"adds": "NaHCO3", "mg_l": 2})"), "\"adds\" is no step that is known"},
      {with_steps(R"({"heat_to_c": 38, "cool": 1})"), "/steps/0/cool: the field \"cool\" is not"},
      {with_steps(R"({"blend_with": {"temperature_c": 10, "ph": 7}, "fraction": 1.5})"),
       "/steps/0/fraction: expected a number from 0 to 1, found 1.5"},
      {with_steps(R"({"blend_with": {"temperature_c": 10, "ph": 9.9}, "fraction": 0.5})"),
       "/steps/0: inorganic carbon would be negative"},
      {with_steps(R"({"spend_free_chlorine_mg_l": 2})"),
       "/steps/0: 2 mg/L of free chlorine cannot be spent: there are 0 mg/L"},
      {with_steps(R"({"spend_free_chlorine": "some"})"), "\"some\" is not known here"},
      {with_steps(R"({"precipitate_to_saturation_index": 1})"),
       "/steps/0: nothing precipitates: the saturation index is"},
      {R"({"temperature_c": 25, "ph": 6.5, "total_alkalinity_mg_l": 20,
           "steps": [{"precipitate_to_saturation_index": 0}]})",
       "/steps/0: nothing can precipitate"},
      {with_steps(R"({"dose": ["NaHCO3", "HCl"], "to": {"ph": 7.2}})"),
       "/steps/0: 2 compounds cannot meet 1 targets"},
      {with_steps(R"({"dose": ["NaHCO3"], "to": {"pH": 7.2}})"),
       "\"pH\" is no reading that a dose may aim at (did you mean ph?)"},
      {with_steps(R"({"add": "NaCl", "mg_l": 90000})"), "/steps/0: the water is too salty"},
  };
  for (const auto& [line, expected] : cases) CHECK_THAT(error_of(line), Catch::Contains(expected));
}

TEST_CASE("a bad line keeps its id and gives its number") {
  const Json found = answer(R"({"id": {"row": 7}, "ph": "x", "temperature_c": 20})");
  CHECK(found.at("id") == Json{{"row", 7}});
  CHECK(found.at("line") == 3);
  CHECK(found.find("states") == found.end());
}

TEST_CASE("all that is wrong with a line is said at once") {
  const std::string text = error_of(
      R"({"ph": 74, "temperature_c": 99, "steps": [{"add": "Foo", "mg_l": 1}, {"heat_to_c": 90}]})");
  for (const char* place : {"/ph", "/temperature_c", "/steps/0/add", "/steps/1/heat_to_c"})
    CHECK_THAT(text, Catch::Contains(place));
}

TEST_CASE("the schema has every key and every compound") {
  const Json schema = Json::parse(tub::water::water_schema(tables().species));
  CHECK(schema.at("$schema") == "https://json-schema.org/draft/2020-12/schema");
  for (const auto& key : tub::chemistry::reading_keys)
    CHECK(schema.at("properties").contains(std::string(key.name)));
  for (const auto& key : tub::chemistry::derived_keys)
    CHECK(schema.at("$defs").at("state").at("properties").contains(std::string(key.name)));
  CHECK(schema.dump().find("Na2B4O7:10H2O") != std::string::npos);
}

TEST_CASE("no control of a terminal comes back in a water's answer, and its id reads as it was") {
  const std::string line = R"({"id": "\u009b31m\u202e", "ph\u001b[2J\u202e": 7})";
  const std::string text = tub::water::answer_water_line(line, 1, tables()).text;
  for (const char* const raw : {"\u009b", "\u202e", "\x1b"}) CHECK(text.find(raw) == text.npos);
  CHECK(Json::parse(text).at("id") == "\u009b31m\u202e");
  CHECK(std::string(Json::parse(text).at("error")).find("<U+001B>[2J<U+202E>") != text.npos);
}

TEST_CASE("a line of water with a NUL in it is at fault") {
  const std::string line = std::string(R"({"ph": 7})") + '\0' + "}";
  CHECK(error_of(line).find("NUL (U+0000)") != std::string::npos);
}
