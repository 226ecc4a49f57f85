// The trade's table index: every worked example by every look-up rule.
#include "chemistry/table_index.h"

#include <catch2/catch.hpp>
#include <fstream>
#include <nlohmann/json.hpp>

#include "base/error.h"
#include "chemistry/operations.h"
#include "project_text.h"
#include "reference_table.h"

using namespace tub;
using namespace tub::chemistry;

namespace {

using Json = nlohmann::ordered_json;

const IndexTables& tables() {
  static const std::string path = TUB_SOURCE_DIR "/src/chemistry/data/table_index.json";
  static const IndexTables read = [] { return parse_index_tables(project_text(path), path); }();
  return read;
}

const Json& examples() {
  static const Json read = Json::parse(
      std::ifstream(TUB_SOURCE_DIR "/tests/reference/chemistry/table_index_examples.json"));
  return read;
}

IndexInputs inputs_of(const Json& example) {
  const Json& in = example.at("inputs");
  IndexInputs inputs;
  inputs.ph = in.at("pH");
  inputs.temperature = fahrenheit(in.at("temp_F"));
  inputs.calcium_hardness_mg_l = in.at("calcium_hardness");
  inputs.total_alkalinity_mg_l = in.at("total_alkalinity");
  inputs.dissolved_solids_mg_l = in.at("tds");
  return inputs;
}

void check(const TableIndex& found, const Json& expected, double margin) {
  CHECK(found.temperature_factor == Approx(expected.at("TF").get<double>()).margin(margin));
  CHECK(found.calcium_factor == Approx(expected.at("CF").get<double>()).margin(margin));
  CHECK(found.alkalinity_factor == Approx(expected.at("AF").get<double>()).margin(margin));
  CHECK(found.index == Approx(expected.at("SI").get<double>()).margin(margin));
}

}  // namespace

TEST_CASE("worked examples come out by each look-up rule") {
  for (const Json& example : examples().at("worked_examples")) {
    INFO(example.at("id") << ", " << example.at("source"));
    const IndexInputs inputs = inputs_of(example);
    const TableIndex nearest = table_index(inputs, LookUp::nearest, tables());
    CHECK(nearest.constant == example.at("constant").get<double>());
    check(nearest, example.at("table_nearest"), 0.0005);
    check(table_index(inputs, LookUp::linear, tables()), example.at("table_linear"), 0.0006);
    check(table_index(inputs, LookUp::closed_form, tables()), example.at("log_form"), 0.0006);
    CHECK(langelier_closed_form(inputs) ==
          Approx(example.at("carrier_form_SI").get<double>()).margin(0.0006));
    if (example.contains("published_answer"))
      CHECK(nearest.index == Approx(example.at("published_answer").get<double>()).margin(0.0005));
  }
}

TEST_CASE("cyanuric acid is taken from alkalinity where an example asks for it") {
  int checked = 0;
  for (const Json& example : examples().at("worked_examples")) {
    if (!example.contains("table_linear_cya_corrected_SI")) continue;
    IndexInputs inputs = inputs_of(example);
    inputs.cyanuric_acid_mg_l = example.at("inputs").at("cya");
    const TableIndex found = table_index(inputs, LookUp::linear, tables());
    INFO(example.at("id"));
    CHECK(found.carbonate_alkalinity_mg_l ==
          Approx(example.at("carbonate_alkalinity").get<double>()).margin(0.05));
    CHECK(found.index ==
          Approx(example.at("table_linear_cya_corrected_SI").get<double>()).margin(0.001));
    ++checked;
  }
  CHECK(checked == 3);
}

TEST_CASE("the sanitary code's own example comes out by linear look-up") {
  const Json& example = examples().at("sanitary_code_example");
  const TableIndex found = table_index(inputs_of(example), LookUp::linear, tables());
  check(found, example, 0.006);
}

TEST_CASE("the classical example of the Langelier index comes out") {
  for (const Json& example : examples().at("literature_examples"))
    for (const Json& given : example.at("cases")) {
      IndexInputs inputs;
      const Json& in = example.at("inputs");
      inputs.ph = in.at("pH");
      inputs.dissolved_solids_mg_l = in.at("TDS");
      inputs.calcium_hardness_mg_l = in.at("calcium_as_CaCO3");
      inputs.total_alkalinity_mg_l = in.at("alkalinity_as_CaCO3");
      inputs.temperature = celsius(given.at("temp_C"));
      CHECK(langelier_closed_form(inputs) == Approx(given.at("SI").get<double>()).margin(0.05));
    }
}

TEST_CASE("what lies outside a table is refused") {
  IndexInputs inputs;
  inputs.temperature = celsius(38);
  inputs.calcium_hardness_mg_l = 1200;
  inputs.total_alkalinity_mg_l = 100;
  CHECK_THROWS_WITH(table_index(inputs, LookUp::nearest, tables()),
                    Catch::Contains("the table of calcium hardness goes from 5 to 1000"));
  inputs.calcium_hardness_mg_l = 0;
  CHECK_THROWS_WITH(table_index(inputs, LookUp::closed_form, tables()),
                    Catch::Contains("calcium hardness has no logarithm"));
}

TEST_CASE("hand methods stay within what is said of them of the equilibrium index") {
  // Over the waters of the speciation table the factor tables are off by -0.6 to +0.2, the closed
  // form by -0.35 to +0.06, as docs/chemistry.md states.
  for (const reference::Row& row : reference::rows("speciation")) {
    if (!row.has("SI_calcite_PB82")) continue;
    const WaterState state = read(reference::water(row), reference::species());
    if (state.calcium_hardness_mg_l < 5 || state.total_alkalinity_mg_l < 5) continue;
    IndexInputs inputs{celsius(state.temperature_c), state.ph,
                       state.calcium_hardness_mg_l,  state.total_alkalinity_mg_l,
                       state.dissolved_solids_mg_l,  0};
    const double equilibrium = row.number("SI_calcite_PB82");
    const double closed = langelier_closed_form(inputs) - equilibrium;
    CHECK(closed > -0.35);
    CHECK(closed < 0.06);
    const double linear = table_index(inputs, LookUp::linear, tables()).index - equilibrium;
    CHECK(linear > -0.6);
    CHECK(linear < 0.25);
  }
}
