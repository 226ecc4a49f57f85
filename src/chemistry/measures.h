// What one mole of a component weighs in the unit that its reading is given in.
#pragma once

#include <array>
#include <string_view>

#include "chemistry/readings.h"
#include "chemistry/water.h"

namespace tub::chemistry {

/// A reading that counts a component: mg/kg = mol/kg × grams_per_mole × 1000.
struct LinearReading {
  double Readings::*reading;
  Component component;
  double grams_per_mole;
  std::string_view formula;  ///< whose molar mass, divided by `divisor`, that is
  int divisor = 1;
};

/// A test of each proves that the mass follows from the formula and the data file's weights.
inline constexpr std::array<LinearReading, 18> measures = {{
    {&Readings::total_alkalinity_mg_l, Component::alkalinity, 50.043, "CaCO3", 2},
    {&Readings::calcium_hardness_mg_l, Component::calcium, 100.086, "CaCO3"},
    {&Readings::magnesium_hardness_mg_l, Component::magnesium, 100.086, "CaCO3"},
    {&Readings::sodium_mg_l, Component::sodium, 22.99, "Na"},
    {&Readings::potassium_mg_l, Component::potassium, 39.098, "K"},
    {&Readings::chloride_mg_l, Component::chloride, 35.45, "Cl"},
    {&Readings::sulfate_mg_l, Component::sulfate, 96.056, "SO4"},
    {&Readings::nitrate_mg_l, Component::nitrate, 62.004, "NO3"},
    {&Readings::borate_as_boron_mg_l, Component::borate, 10.81, "B"},
    {&Readings::cyanuric_acid_mg_l, Component::cyanurate, 129.075, "H3Cy"},
    {&Readings::free_chlorine_mg_l, Component::chlorine, 70.9, "Cl2"},
    {&Readings::combined_chlorine_mg_l, Component::combined_chlorine, 70.9, "Cl2"},
    {&Readings::bromide_mg_l, Component::bromide, 79.904, "Br"},
    {&Readings::total_bromine_mg_l, Component::bromine, 159.808, "Br2"},
    {&Readings::copper_mg_l, Component::copper, 63.546, "Cu"},
    {&Readings::iron_mg_l, Component::iron, 55.845, "Fe"},
    {&Readings::manganese_mg_l, Component::manganese, 54.938, "Mn"},
    {&Readings::peroxymonosulfate_mg_l, Component::peroxymonosulfate, 113.063, "HSO5"},
}};

/// The sequestered part of a metal, which its reading includes.
struct HeldMetal {
  Component free;
  Component held;
};
inline constexpr std::array<HeldMetal, 3> held_metals = {{
    {Component::copper, Component::copper_held},
    {Component::iron, Component::iron_held},
    {Component::manganese, Component::manganese_held},
}};

/// REQUIRES: a component that a reading counts.
constexpr double grams_per_mole(Component component) {
  for (const LinearReading& measure : measures)
    if (measure.component == component) return measure.grams_per_mole;
  return 0;
}

/// The reading of a component in mg/kg. REQUIRES: as above.
constexpr double milligrams(const Totals& totals, Component component) {
  return totals[component] * grams_per_mole(component) * 1e3;
}

}  // namespace tub::chemistry
