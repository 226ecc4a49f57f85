// The species file: constants at 25 °C as published, and what a faulty file is told.
#include "chemistry/species_table.h"

#include <catch2/catch.hpp>

#include "base/error.h"
#include "reference_table.h"

using namespace tub;
using namespace tub::chemistry;
using reference::species;

namespace {

// log K of formation from masters.
double log_k(const char* name, double at_c) {
  const Species& row = species().species()[species().species_index(name)];
  return row.log_k.at(celsius(at_c));
}

}  // namespace

TEST_CASE("constants have their published values at 25 °C") {
  // Plummer & Busenberg 1982: pK1 6.352, pK2 10.329, calcite 8.480, CaCO3 3.22, KH 1.468.
  CHECK(log_k("HCO3-", 25) == Approx(-6.352).margin(0.0005));
  CHECK(log_k("CO3-2", 25) == Approx(-6.352 - 10.329).margin(0.001));
  CHECK(log_k("CaCO3", 25) - log_k("CO3-2", 25) == Approx(3.22).margin(0.01));
  CHECK(species().phase("calcite").log_k.at(celsius(25)) - log_k("CO3-2", 25) ==
        Approx(8.480).margin(0.0005));
  CHECK(species().phase("carbon_dioxide").log_k.at(celsius(25)) == Approx(1.468).margin(0.0005));
  // Morris 1966: 7.54 at 25 °C. Boric acid 9.24.
  CHECK(log_k("OCl-", 25) == Approx(-7.54).margin(0.005));
  CHECK(log_k("B(OH)4-", 25) == Approx(-9.24).margin(0.0005));
  CHECK(log_k("HSO4-", 25) == Approx(1.988).margin(0.001));
}

TEST_CASE("constants go with temperature as published") {
  // Plummer & Busenberg's formulas at 40 °C; boric acid by van 't Hoff, 3.224 kcal/mol.
  CHECK(log_k("HCO3-", 40) == Approx(-6.2974).margin(0.0001));
  CHECK(log_k("CO3-2", 40) == Approx(-6.2974 - 10.2217).margin(0.0002));
  CHECK(log_k("B(OH)4-", 40) == Approx(-9.1268).margin(0.0003));
}

TEST_CASE("chlorinated cyanurates close their thermodynamic cycles") {
  // O'Brien, Morris & Butler 1974: derived hydrolysis constants 2.93, 4.07 and 5.62.
  const auto hydrolysis = [](const char* from, const char* to) {
    return log_k(from, 25) - log_k(to, 25);
  };
  CHECK(hydrolysis("HCl2Cy", "H2ClCy") == Approx(2.93).margin(0.001));
  CHECK(log_k("H2ClCy", 25) == Approx(4.07).margin(0.001));
  CHECK(hydrolysis("HClCy-", "H2Cy-") == Approx(5.62).margin(0.001));
}

TEST_CASE("every constant names its source and its range") {
  for (const Species& row : species().species()) {
    if (row.reaction.empty()) continue;
    INFO(row.name);
    CHECK_FALSE(row.source.text.empty());
    CHECK(row.source.high_c >= row.source.low_c);
    CHECK(row.source.high_c > 0);
  }
}

TEST_CASE("a faulty species file is answered with every fault at its place") {
  const char* text = R"({
    "elements": {"weights": {"H": 1.008, "O": 15.999}, "groups": {}},
    "components": [{"component": "alkalnity", "form": "H+", "activity": "davies"}],
    "species": [{"species": "OH-", "reaction": "H2O = H+ + O-", "log_k": {"at_25c": -14},
                 "activity": "davis", "source": "x", "range_c": [0, 1]}],
    "phases": [], "compounds": []
  })";
  CHECK_THROWS_WITH(SpeciesTable::parse(text, "species.json"),
                    Catch::Contains("\"alkalnity\" is no component") &&
                        Catch::Contains("/species/0") && Catch::Contains("does not balance") &&
                        Catch::Contains("\"davis\" is not known here") &&
                        Catch::Contains("the field \"gas_exchange\" is missing"));
}
