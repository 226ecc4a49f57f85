// From readings to totals: the inorganic carbon that pH and alkalinity ask for.
#include "chemistry/readings.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "base/error.h"
#include "base/text.h"
#include "chemistry/measures.h"
#include "chemistry/operations.h"
#include "chemistry/oxidants.h"
#include "chemistry/solve.h"

namespace tub {
namespace {

const double ln10 = std::log(10.0);
constexpr double highest_log10_pco2 = 0;  // above 1 atm carbon dioxide boils off

[[noreturn]] void throw_impossible(std::string message, std::string help) {
  throw Error(Diagnostic{std::move(message), "", {}, std::move(help)});
}

Totals totals_of(const Readings& readings) {
  Totals totals;
  for (const Measure& m : measures) {
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

// The water at an imposed pH, and at an imposed activity of carbon dioxide if there is one.
class AtPh {
 public:
  AtPh(const Water& water, double ph, const SpeciesTable& table)
      : water_(water), log_h_(-ph * ln10), table_(table) {}

  double alkalinity_without_carbon() const {
    Water bare = water_;
    bare.totals[Component::carbonate] = 0;
    const std::array<Imposed, 1> imposed = {{{Component::alkalinity, log_h_}}};
    MassBalance balance(bare, table_, imposed);
    balance.start_from_scratch();
    solve(balance);
    return -balance.held(Component::alkalinity);
  }

  MassBalance with_carbon(double log_carbon_dioxide) const {
    const std::array<Imposed, 2> imposed = {
        {{Component::alkalinity, log_h_}, {Component::carbonate, log_carbon_dioxide}}};
    MassBalance balance(water_, table_, imposed);
    balance.start_from_scratch();
    solve(balance);
    return balance;
  }

 private:
  Water water_;
  double log_h_;
  const SpeciesTable& table_;
};

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

// Inorganic carbon, mol/kg: the secant method on ln of what carbon dioxide's activity brings of
// alkalinity, which is close to that activity itself.
double carbon_for(const Water& water, const Readings& readings, const SpeciesTable& table) {
  const AtPh at_ph(water, readings.ph, table);
  const double wanted = water.totals[Component::alkalinity];
  const double bare = at_ph.alkalinity_without_carbon();
  const double rounding = 1e-13 * (std::abs(wanted) + std::abs(bare));
  if (std::abs(wanted - bare) <= rounding) return 0;
  if (wanted < bare) throw_too_little_alkalinity(readings, bare);
  const double highest =
      ln10 * (highest_log10_pco2 - table.phase("carbon_dioxide").log_k.at(water.temperature));
  double x = highest - 6 * ln10;
  double slope = 1;
  double last_x = 0, last_error = 0;
  for (int tries = 0; tries < 100; ++tries) {
    const MassBalance balance = at_ph.with_carbon(x);
    const double found = -balance.held(Component::alkalinity);
    const double error = std::log(std::max(found - bare, 1e-30) / (wanted - bare));
    if (std::abs(found - wanted) <= rounding || std::abs(error) < 1e-13)
      return balance.held(Component::carbonate);
    if (tries > 0) slope = std::clamp((error - last_error) / (x - last_x), 0.2, 5.0);
    last_x = x;
    last_error = error;
    x -= error / slope;
    if (x > highest + 0.1 && last_x > highest) throw_too_much_carbon(readings);
    x = std::min(x, highest + 0.2);
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
  water.totals[Component::carbonate] = carbon_for(water, readings, table);
  return water;
}

}  // namespace tub
