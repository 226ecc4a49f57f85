#include "chemistry/sensitivity.h"

#include <cmath>

namespace tub {
namespace {

MassBalance at_solution(const Water& water, const Speciation& speciation,
                        const SpeciesTable& table) {
  MassBalance balance(water, table, {});
  balance.start_near(speciation);
  balance.set_ionic_strength(speciation.ionic_strength);
  balance.update_species();
  return balance;
}

Matrix jacobian_of(const MassBalance& balance) {
  Matrix jacobian;
  balance.jacobian(jacobian);
  return jacobian;
}

}  // namespace

Sensitivity::Sensitivity(const Water& water, const Speciation& speciation,
                         const SpeciesTable& table)
    : table_(table),
      balance_(at_solution(water, speciation, table)),
      jacobian_(jacobian_of(balance_)),
      factor_(jacobian_, balance_.unknowns()) {
  balance_.strength_slope(by_strength_);
  factor_.solve(by_strength_);
  own_slope_ = balance_.computed_strength_slope(strength_by_);
}

Response Sensitivity::to(Component total) const {
  const std::size_t size = balance_.unknowns();
  Vector direct{};
  const double charge = table_.component(total).charge;
  double strength = charge * charge / 2;  // of a component that forms no other species
  for (std::size_t u = 0; u < size; ++u)
    if (balance_.component(u) == total) {
      direct[u] = total == Component::alkalinity ? -1 : 1;
      strength = 0;
    }
  factor_.solve(direct);
  double own = own_slope_;
  for (std::size_t u = 0; u < size; ++u) {
    strength += strength_by_[u] * direct[u];
    own -= strength_by_[u] * by_strength_[u];
  }
  Response response;
  response.ionic_strength = strength / (1 - own);
  Vector change{};
  for (std::size_t u = 0; u < size; ++u)
    change[u] = direct[u] - by_strength_[u] * response.ionic_strength;
  balance_.fill_response(change, total, response.ionic_strength, response.log_activity,
                         response.molality);
  response.ph = -response.log_activity[0] / std::log(10.0);
  return response;
}

}  // namespace tub
