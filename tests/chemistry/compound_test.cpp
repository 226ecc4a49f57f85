// Compounds: what each adds follows from its formula.
#include <catch2/catch.hpp>

#include "base/error.h"
#include "chemistry/measures.h"
#include "reference_table.h"

using namespace tub;
using namespace tub::chemistry;
using reference::species;

TEST_CASE("what a compound adds is what its formula holds, in water and H+") {
  const Elements& elements = species().elements();
  for (const Compound& compound : species().compounds()) {
    INFO(compound.formula);
    Atoms left = atoms_of(compound.formula, elements);
    for (std::size_t i = 1; i < component_count; ++i) {
      const Atoms form = atoms_of(species().component(static_cast<Component>(i)).form, elements);
      for (const auto& [symbol, count] : form.count)
        left.count[symbol] -= count * compound.adds.at(i);
      left.charge -= static_cast<int>(form.charge * compound.adds.at(i));
    }
    // The cyanurate ring stands for its atoms.
    const double rings = std::exchange(left.count["Cy"], 0);
    CHECK(rings == Approx(0).margin(1e-9));
    const double water = left.count["O"];
    const double protons = left.count["H"] - 2 * water;
    left.count.erase("O");
    left.count.erase("H");
    for (const auto& [symbol, count] : left.count) CHECK(count == Approx(0).margin(1e-9));
    CHECK(protons == Approx(left.charge).margin(1e-9));
    CHECK(compound.adds[Component::alkalinity] == Approx(-protons).margin(1e-9));
  }
}

TEST_CASE("equivalents of alkalinity a mole are those of the literature") {
  // Dissolved, unspent: stoichiometry, as in tests/reference/chemistry/README.md.
  const std::pair<const char*, double> expected[] = {
      {"NaHCO3", 1}, {"Na2CO3", 2}, {"NaHSO4", -1},       {"HCl", -1},
      {"CaCl2", 0},  {"NaOCl", 1},  {"Ca(OCl)2", 2},      {"NaCl2Cy:2H2O", 1},
      {"Cl3Cy", 0},  {"H3Cy", 0},   {"Na2B4O7:10H2O", 2}, {"2KHSO5:KHSO4:K2SO4", -1},
      {"CO2", 0},    {"NaBr", 0},   {"C5H6BrClN2O2", 0},  {"H2SO4", -2}};
  for (const auto& [formula, equivalents] : expected) {
    INFO(formula);
    CHECK(species().compound(formula).adds[Component::alkalinity] == equivalents);
  }
}

TEST_CASE("the mass of each reading's unit follows from its formula") {
  for (const LinearReading& measure : measures) {
    INFO(name_of(measure.component));
    const Atoms atoms = atoms_of(measure.formula, species().elements());
    CHECK(measure.grams_per_mole * measure.divisor ==
          Approx(molar_mass(atoms, species().elements())).margin(1e-9));
  }
}

TEST_CASE("an unknown compound is answered with the nearest") {
  CHECK_THROWS_WITH(
      add(Water{}, "NaHCO", 1, species()),
      Catch::Contains("the compound \"NaHCO\" is not known") && Catch::Contains("NaHCO3"));
  CHECK_THROWS_AS(add(Water{}, "NaHCO3", -1, species()), Error);
}

TEST_CASE("dichlor brings 0.91 mg/L of cyanuric acid with 1 mg/L of chlorine") {
  const Water water = add(Water{}, "NaCl2Cy:2H2O", 10, species());
  CHECK(milligrams(water.totals, Component::cyanurate) /
            milligrams(water.totals, Component::chlorine) ==
        Approx(129.075 / 141.8).epsilon(1e-9));
}

TEST_CASE("chlorine oxidises bromide at once, and spent bromine gives it back") {
  Water water = add(add(Water{}, "NaHCO3", 100, species()), "NaBr", 20, species());
  const double bromide = water.totals[Component::bromide];
  const Water bromine = add(water, "NaOCl", 5, species());
  CHECK(bromine.totals[Component::chlorine] == 0);
  CHECK(bromine.totals[Component::bromine] == Approx(5.0 / 74.439e3));
  const Water spent = spend_all_total_bromine(bromine);
  CHECK(spent.totals[Component::bromide] == Approx(bromide));
  CHECK(spent.totals[Component::alkalinity] == Approx(water.totals[Component::alkalinity]));
}

TEST_CASE("a sequestrant holds metal, and a test of the total still reads it") {
  Readings readings;
  readings.ph = 7.5;
  readings.total_alkalinity_mg_l = 80;
  readings.iron_mg_l = 0.3;
  readings.copper_mg_l = 1.2;
  const Water water = water_from_readings(readings, Balance::sodium, species());
  const Water held = sequester(water, 0.75);
  CHECK(held.totals[Component::iron] == Approx(0.25 * water.totals[Component::iron]));
  CHECK(read(held, species()).iron_mg_l == Approx(0.3));
  CHECK(read(held, species()).copper_mg_l == Approx(1.2));
  CHECK(read(blend(held, water, 0.5), species()).iron_mg_l == Approx(0.3));
  CHECK_THROWS_AS(sequester(water, 1.5), Error);
}
