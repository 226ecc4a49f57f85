#include "chemistry/solve.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "base/error.h"

namespace tub::chemistry {
namespace {

constexpr int most_steps = 200;
constexpr double longest_move = 8;               // of ln activity in one step
constexpr double converged = 1e-7;               // step; the error left is about its square
constexpr double near_enough = 1;                // step below which activities move along
constexpr double largest_strength_change = 0.5;  // in one step, relative
constexpr double least_descent = 0.2;
constexpr double highest_ionic_strength = 1;

// Newton's step of ln activities and ionic strength together, and of the former alone.
struct Step {
  Vector together{};
  Vector alone{};
  double strength = 0;
  double slope = 0;  // of the convex function along `alone`; negative
  double size = 0;   // largest entry of `alone`
};

double dot(const Vector& a, const Vector& b, std::size_t size) {
  double sum = 0;
  for (std::size_t i = 0; i < size; ++i) sum += a[i] * b[i];
  return sum;
}

double largest(const Vector& v, std::size_t size) {
  double most = 0;
  for (std::size_t i = 0; i < size; ++i) most = std::max(most, std::abs(v[i]));
  return most;
}

// Solves (equation 8)
//   J dx + s dI = -g       the balances
//   r dx + (q - 1) dI = I - I(x)   the ionic strength
Step newton_step(const MassBalance& balance) {
  const std::size_t size = balance.unknowns();
  Linearised here = balance.linearised();
  const double excess = here.ionic_strength - balance.ionic_strength();
  const Cholesky factor(here.jacobian, size);
  Step step;
  for (std::size_t i = 0; i < size; ++i) step.alone[i] = -here.residual[i];
  factor.solve(step.alone);
  factor.solve(here.by_strength);
  // Far off, the slope of I(x) over I may pass 1 and would send I the wrong way.
  const double slope = here.own_slope - dot(here.strength_by, here.by_strength, size);
  const double wanted =
      (excess + dot(here.strength_by, step.alone, size)) / std::max(1 - slope, least_descent);
  const double most = largest_strength_change * balance.ionic_strength();
  step.strength = std::clamp(wanted, -most, most);
  for (std::size_t i = 0; i < size; ++i)
    step.together[i] = step.alone[i] - here.by_strength[i] * step.strength;
  step.slope = dot(here.residual, step.alone, size);
  step.size = largest(step.alone, size);
  return step;
}

// Goes down the convex function along `alone`: shortens the step while it climbs too far on the
// other side of the valley.
void descend(MassBalance& balance, const Step& step) {
  const std::size_t size = balance.unknowns();
  double factor = std::min(1.0, longest_move / step.size);
  balance.move(step.alone, factor);
  for (int tries = 0; tries < 60; ++tries) {
    balance.update_species();
    Vector residual;
    balance.residual(residual);
    const double slope = dot(residual, step.alone, size);
    if (slope <= -0.5 * step.slope) return;
    const double shorter = factor * std::clamp(step.slope / (step.slope - slope), 0.1, 0.6);
    balance.move(step.alone, shorter - factor);
    factor = shorter;
  }
}

[[noreturn]] void throw_too_salty(const MassBalance& balance) {
  throw Error(Diagnostic{
      fmt::format("the water is too salty for the activity model: ionic strength {:.2f} mol/kg, "
                  "most of it from the total of {}; at most {} is possible",
                  balance.ionic_strength(), name_of(balance.saltiest()), highest_ionic_strength),
      "",
      {},
      "see which reading or dose makes it so"});
}

[[noreturn]] void throw_not_converged(const MassBalance& balance) {
  if (balance.ionic_strength() > highest_ionic_strength) throw_too_salty(balance);
  std::size_t worst = 0;
  Vector residual;
  balance.residual(residual);
  for (std::size_t i = 0; i < balance.unknowns(); ++i)
    if (!(std::abs(residual[i]) <= std::abs(residual[worst]))) worst = i;
  throw Error(Diagnostic{
      fmt::format("no species satisfy the total of {}", name_of(balance.component(worst))),
      "",
      {},
      "see which reading or dose makes it so"});
}

}  // namespace

Cholesky::Cholesky(const Matrix& matrix, std::size_t size) : size_(size) {
  for (std::size_t j = 0; j < size; ++j) {
    double diagonal = matrix[j][j];
    for (std::size_t k = 0; k < j; ++k) diagonal -= lower_[j][k] * lower_[j][k];
    inverse_[j] = 1 / std::sqrt(diagonal);
    for (std::size_t i = j + 1; i < size; ++i) {
      double sum = matrix[i][j];
      for (std::size_t k = 0; k < j; ++k) sum -= lower_[i][k] * lower_[j][k];
      lower_[i][j] = sum * inverse_[j];
    }
  }
}

void Cholesky::solve(Vector& right) const {
  for (std::size_t i = 0; i < size_; ++i) {
    for (std::size_t k = 0; k < i; ++k) right[i] -= lower_[i][k] * right[k];
    right[i] *= inverse_[i];
  }
  for (std::size_t i = size_; i-- > 0;) {
    for (std::size_t k = i + 1; k < size_; ++k) right[i] -= lower_[k][i] * right[k];
    right[i] *= inverse_[i];
  }
}

int solve(MassBalance& balance) {
  const auto check = [&] {
    if (balance.ionic_strength() > highest_ionic_strength) throw_too_salty(balance);
  };
  check();
  balance.set_ionic_strength(balance.ionic_strength());
  balance.update_species();
  for (int steps = 1; steps <= most_steps; ++steps) {
    const Step step = newton_step(balance);
    if (!(step.size < near_enough)) {
      descend(balance, step);
      continue;
    }
    const double relative = std::abs(step.strength) / balance.ionic_strength();
    balance.move(step.together, 1);
    balance.set_ionic_strength(balance.ionic_strength() + step.strength);
    balance.update_species();
    if (step.size < converged && relative < converged) {
      check();
      return steps;
    }
  }
  throw_not_converged(balance);
}

}  // namespace tub::chemistry
