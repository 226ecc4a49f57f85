// Formulas and reactions as people write them.
#include "chemistry/formula.h"

#include <catch2/catch.hpp>

#include "base/error.h"
#include "chemistry/reaction.h"
#include "reference_table.h"

using namespace tub;
using namespace tub::chemistry;

namespace {

const Elements& elements() { return reference::species().elements(); }
double mass(std::string_view formula) {
  return molar_mass(atoms_of(formula, elements()), elements());
}

}  // namespace

TEST_CASE("molar masses follow from the formula") {
  // Of the IUPAC abridged standard atomic weights (from memory).
  CHECK(mass("NaHCO3") == Approx(84.006).margin(0.001));
  CHECK(mass("Ca(OCl)2") == Approx(142.976).margin(0.001));
  CHECK(mass("CaCl2:2H2O") == Approx(147.008).margin(0.001));
  CHECK(mass("Na2B4O7:10H2O") == Approx(381.363).margin(0.001));
  CHECK(mass("NaCl2Cy:2H2O") == Approx(255.971).margin(0.001));
  CHECK(mass("2KHSO5:KHSO4:K2SO4") == Approx(614.736).margin(0.001));
  CHECK(mass("H3Cy") == Approx(129.075).margin(0.001));
}

TEST_CASE("a charge is read from the end") {
  CHECK(atoms_of("CO3-2", elements()).charge == -2);
  CHECK(atoms_of("H+", elements()).charge == 1);
  CHECK(atoms_of("B(OH)4-", elements()).charge == -1);
  CHECK(atoms_of("CO2", elements()).charge == 0);
}

TEST_CASE("what is no formula is refused at its place") {
  CHECK_THROWS_WITH(atoms_of("NaHCO3x", elements()), Catch::Contains("from \"x\" on"));
  CHECK_THROWS_WITH(atoms_of("Ca(OCl", elements()), Catch::Contains("no formula that can be read"));
  CHECK_THROWS_AS(atoms_of("", elements()), Error);
  CHECK_THROWS_AS(atoms_of("Xx2", elements()), Error);
}

TEST_CASE("a reaction that does not balance is refused") {
  CHECK(reaction_of("CO2 + H2O = H+ + HCO3-", elements()).terms.size() == 4);
  CHECK_THROWS_WITH(reaction_of("HCO3- = H+ + CO3-", elements()),
                    Catch::Contains("does not balance in charge: +1"));
  CHECK_THROWS_WITH(reaction_of("CO2 = H+ + HCO3-", elements()),
                    Catch::Contains("does not balance in"));
  CHECK_THROWS_WITH(reaction_of("CO2", elements()), Catch::Contains("has no \" = \""));
}
