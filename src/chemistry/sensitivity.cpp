#include "chemistry/sensitivity.h"

#include <cmath>

namespace tub::chemistry {
namespace {

MassBalance at_solution(const Water& water, const Speciation& speciation,
                        const SpeciesTable& table) {
  MassBalance balance(water, table, {});
  balance.start_near(speciation);
  balance.set_ionic_strength(speciation.ionic_strength);
  balance.update_species();
  return balance;
}

}  // namespace

Sensitivity::Sensitivity(const Water& water, const Speciation& speciation,
                         const SpeciesTable& table)
    : table_(table),
      balance_(at_solution(water, speciation, table)),
      here_(balance_.linearised()),
      factor_(here_.jacobian, balance_.unknowns()) {
  factor_.solve(here_.by_strength);
}

Sensitivity::Change Sensitivity::change(Vector balances, double strength) const {
  const std::size_t size = balance_.unknowns();
  factor_.solve(balances);
  double own = here_.own_slope;
  for (std::size_t u = 0; u < size; ++u) {
    strength += here_.strength_by[u] * balances[u];
    own -= here_.strength_by[u] * here_.by_strength[u];
  }
  Change result;
  result.strength = strength / (1 - own);
  for (std::size_t u = 0; u < size; ++u)
    result.unknowns[u] = balances[u] - here_.by_strength[u] * result.strength;
  return result;
}

Response Sensitivity::to(Component total) const {
  Vector balances{};
  const double charge = table_.component(total).charge;
  double strength = charge * charge / 2;  // of a component that forms no other species
  for (std::size_t u = 0; u < balance_.unknowns(); ++u)
    if (balance_.component(u) == total) {
      balances[u] = total == Component::alkalinity ? -1 : 1;
      strength = 0;
    }
  const Change found = change(balances, strength);
  Response response;
  response.ionic_strength = found.strength;
  balance_.fill_response(found.unknowns, total, found.strength, response.log_activity,
                         response.molality);
  response.ph = -response.log_activity[0] / std::log(10.0);
  return response;
}

Response Sensitivity::to_constant(std::size_t species) const {
  std::array<double, max_species> shift{};  // of ln K of each species' formation
  for (std::size_t s = 0; s < table_.species().size(); ++s)
    for (const auto& [reaction, number] : table_.species()[s].built_on)
      if (reaction == species) shift[s] += number * std::log(10.0);
  Vector balances{};
  double strength = 0;
  balance_.shift_constants(shift, balances, strength);
  for (double& balance : balances) balance = -balance;
  const Change found = change(balances, strength);
  Response response;
  response.ionic_strength = found.strength;
  balance_.fill_response(found.unknowns, std::nullopt, found.strength, response.log_activity,
                         response.molality);
  balance_.add_shift(shift, response.molality);
  response.ph = -response.log_activity[0] / std::log(10.0);
  return response;
}

double Sensitivity::ph_curvature(const Response& first, const Response& second) const {
  Vector balances{};
  double strength = 0;
  balance_.second_order(first.molality, second.molality,
                        first.ionic_strength * second.ionic_strength, balances, strength);
  for (double& balance : balances) balance = -balance;
  const Change found = change(balances, strength);
  for (std::size_t u = 0; u < balance_.unknowns(); ++u)
    if (balance_.component(u) == Component::alkalinity) return -found.unknowns[u] / std::log(10.0);
  return 0;
}

}  // namespace tub::chemistry
