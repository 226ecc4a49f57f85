// From readings to totals: the inorganic carbon that pH and alkalinity ask for.
#include "chemistry/readings.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

#include "base/error.h"
#include "base/text.h"
#include "chemistry/measures.h"
#include "chemistry/operations.h"
#include "chemistry/oxidants.h"
#include "chemistry/solve.h"

namespace tub::chemistry {
namespace {

using std::numbers::ln10;
constexpr double unseen_alkalinity = 2e-7;  // mol/kg, 0.01 mg/L as CaCO3: no test shows it
constexpr double highest_log10_pco2 = 0;    // above 1 atm carbon dioxide boils off

[[noreturn]] void throw_impossible(std::string message, std::string help) {
  throw Error(Diagnostic{std::move(message), "", {}, std::move(help)});
}

Totals totals_of(const Readings& readings) {
  Totals totals;
  for (const LinearReading& m : measures) {
    const double amount = readings.*m.reading;
    if (!std::isfinite(amount) || (amount < 0 && m.component != Component::alkalinity))
      throw_impossible(fmt::format("the {} is impossible: {} mg/L",
                                   replaced(name_of(m.component), "_", " "), amount),
                       "give a number that is not negative");
    totals[m.component] = amount / (m.grams_per_mole * 1e3);
  }
  return totals;
}

// Positive charge that is missing, mol/kg.
double missing_charge(const Totals& totals, const SpeciesTable& table) {
  double charge = -totals[Component::alkalinity];
  for (std::size_t i = 1; i < component_count; ++i)
    charge += totals.at(i) * table.component(static_cast<Component>(i)).charge;
  return -charge;
}

void close_charge(Totals& totals, Balance balance, const SpeciesTable& table) {
  if (balance == Balance::none) return;
  const bool by_sodium = balance == Balance::sodium;
  const Component ion = by_sodium ? Component::sodium : Component::chloride;
  totals[ion] = 0;
  const double missing = missing_charge(totals, table) * (by_sodium ? 1 : -1);
  if (missing < 0)
    throw_impossible(fmt::format("charge balance would need {} mg/L of {}",
                                 fixed(missing * grams_per_mole(ion) * 1e3, 2), name_of(ion)),
                     fmt::format("balance with {} instead", by_sodium ? "chloride" : "sodium"));
  totals[ion] = missing;
}

double alkalinity_without_carbon(Water water, double log_h, const SpeciesTable& table) {
  water.totals[Component::carbonate] = 0;
  const std::array<Imposed, 1> imposed = {{{Component::alkalinity, log_h}}};
  MassBalance balance(water, table, imposed);
  balance.start_from_scratch();
  solve(balance);
  return -balance.held(Component::alkalinity);
}

[[noreturn]] void throw_too_little_alkalinity(const Readings& readings, double needed) {
  throw_impossible(
      fmt::format("inorganic carbon would be negative: at pH {} and {} °C this water holds at "
                  "least {} mg/L of alkalinity, found {}",
                  shortest(readings.ph), shortest(readings.temperature_c),
                  fixed(needed * grams_per_mole(Component::alkalinity) * 1e3, 1),
                  shortest(readings.total_alkalinity_mg_l)),
      "test pH and alkalinity again");
}

[[noreturn]] void throw_too_much_carbon(const Readings& readings) {
  throw_impossible(
      fmt::format("inorganic carbon would boil off: at pH {} an alkalinity of {} mg/L holds more "
                  "than 1 atm of carbon dioxide",
                  shortest(readings.ph), shortest(readings.total_alkalinity_mg_l)),
      "test pH and alkalinity again");
}

// ln of the activity of carbon dioxide whose bicarbonate and carbonate bring so much alkalinity,
// without pairs and activity coefficients.
double start_for(double alkalinity, double log_h, const Water& water, const SpeciesTable& table) {
  double share = 0;
  for (const Species& species : table.species()) {
    const int protons = species.composition.of(Component::alkalinity);
    if (species.composition.of(Component::carbonate) == 1 && species.composition.size() == 2 &&
        protons < 0)
      share -= protons * std::exp(ln10 * species.log_k.at(water.temperature) + protons * log_h);
  }
  return std::log(alkalinity / share);
}

// Inorganic carbon that brings alkalinity from what the water has without it to its total, mol/kg:
// the secant method on ln of that difference over ln of carbon dioxide's activity, nearly a line.
double carbon_for(const Water& water, const Readings& readings, double bare,
                  const SpeciesTable& table) {
  const double log_h = -readings.ph * ln10;
  const double wanted = water.totals[Component::alkalinity] - bare;
  const double highest =
      ln10 * (highest_log10_pco2 - table.phase("carbon_dioxide").log_k.at(water.temperature));
  double x = std::min(start_for(wanted, log_h, water, table), highest + 0.2);
  const std::array<Imposed, 2> imposed = {
      {{Component::alkalinity, log_h}, {Component::carbonate, x}}};
  MassBalance balance(water, table, imposed);
  balance.start_from_scratch();
  double slope = 1, last_x = 0, last_error = 0;
  for (int tries = 0; tries < 100; ++tries) {
    balance.log_activity(Component::carbonate) = x;
    solve(balance);
    const double found = -balance.held(Component::alkalinity) - bare;
    const double error = std::log(std::max(found, 1e-30) / wanted);
    const double rounding = 1e-13 * (std::abs(wanted) + std::abs(bare));
    if (std::abs(found - wanted) <= rounding) return balance.held(Component::carbonate);
    if (tries > 0) slope = std::clamp((error - last_error) / (x - last_x), 0.2, 5.0);
    if (x > highest && x - error / slope > highest + 0.1) throw_too_much_carbon(readings);
    last_x = x;
    last_error = error;
    x = std::min(x - error / slope, highest + 0.2);
  }
  throw_impossible("no amount of inorganic carbon gives this pH and alkalinity",
                   "test pH and alkalinity again");
}

}  // namespace

Water water_from_readings(const Readings& readings, Balance balance, const SpeciesTable& table,
                          Activities activities) {
  Water water;
  water.temperature = celsius(readings.temperature_c);
  water.activities = activities;
  water.totals = totals_of(readings);
  oxidise_bromide(water.totals);
  close_charge(water.totals, balance, table);
  const double bare = alkalinity_without_carbon(water, -readings.ph * ln10, table);
  double& alkalinity = water.totals[Component::alkalinity];
  if (bare - alkalinity > unseen_alkalinity) throw_too_little_alkalinity(readings, bare);
  if (alkalinity > bare) {
    water.totals[Component::carbonate] = carbon_for(water, readings, bare, table);
  } else {
    alkalinity = bare;
    close_charge(water.totals, balance, table);
  }
  return water;
}

}  // namespace tub::chemistry
