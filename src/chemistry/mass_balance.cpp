#include "chemistry/mass_balance.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <numbers>

#include "base/error.h"
#include "base/text.h"

namespace tub::chemistry {
namespace {

using std::numbers::ln10;

constexpr std::size_t index_of(Component c) { return static_cast<std::size_t>(c); }

[[noreturn]] void throw_impossible(Component c, double amount) {
  const std::string shown = std::isfinite(amount) ? shortest(amount * 1e3) : "not finite";
  throw Error(Diagnostic{fmt::format("the total of {} is impossible: {} mmol/kg",
                                     replaced(name_of(c), "_", " "), shown),
                         "",
                         {},
                         "see which reading or dose makes it so"});
}

}  // namespace

MassBalance::MassBalance(const Water& water, const SpeciesTable& table,
                         std::span<const Imposed> imposed)
    : table_(table),
      temperature_(water.temperature),
      ideal_(water.activities == Activities::ideal),
      constants_(debye_hueckel(water.temperature)),
      totals_(water.totals) {
  check(water);
  choose_components(water, imposed);
  choose_species(water);
}

void MassBalance::check(const Water& water) const {
  for (std::size_t i = 0; i < component_count; ++i) {
    const auto c = static_cast<Component>(i);
    const double amount = water.totals.at(i);
    const bool negative = amount < 0 && c != Component::alkalinity;
    if (negative || !std::isfinite(amount)) throw_impossible(c, amount);
  }
}

bool MassBalance::is_present(const Water& water, std::size_t component) const {
  const auto c = static_cast<Component>(component);
  return c == Component::alkalinity || (water.totals[c] > 0 && table_.component(c).master);
}

bool MassBalance::retake(const Water& water) {
  const bool is_ideal = water.activities == Activities::ideal;
  if (!(water.temperature == temperature_) || is_ideal != ideal_) return false;
  for (std::size_t i = 0; i < component_count; ++i)
    if (!imposed_[i] && is_present(water, i) != present_[i]) return false;
  check(water);
  totals_ = water.totals;
  for (std::size_t r = 0; r < row_count_; ++r)
    if (!rows_[r].reacts) rows_[r].molality = totals_.at(rows_[r].component[0]);
  return true;
}

// Which components are there, and which of them react: more than one species holds them.
void MassBalance::choose_components(const Water& water, std::span<const Imposed> imposed) {
  for (std::size_t i = 0; i < component_count; ++i) present_[i] = is_present(water, i);
  unknown_of_.fill(-1);
  for (const Imposed& given : imposed) {
    present_[index_of(given.component)] = true;
    imposed_[index_of(given.component)] = true;
    log_activity_[index_of(given.component)] = given.log_activity;
  }
  std::array<int, component_count> holders{};
  for (const Species& species : table_.species())
    if (std::all_of(species.composition.begin(), species.composition.end(),
                    [&](const Part& part) { return present_[index_of(part.component)]; }))
      for (const Part& part : species.composition) ++holders[index_of(part.component)];
  for (std::size_t i = 0; i < component_count; ++i)
    if (holders[i] > 1 && !imposed_[i]) {
      unknown_of_[i] = static_cast<int>(size_);
      unknown_[size_++] = static_cast<Component>(i);
    }
}

void MassBalance::choose_species(const Water& water) {
  const LogKBasis basis = log_k_basis(water.temperature);
  for (std::size_t s = 0; s < table_.species().size(); ++s) {
    const Species& species = table_.species()[s];
    if (!std::all_of(species.composition.begin(), species.composition.end(),
                     [&](const Part& part) { return present_[index_of(part.component)]; }))
      continue;
    Row& row = rows_[row_count_++];
    row = {};
    row.species = s;
    row.log_k = ln10 * species.log_k.at(basis);
    row.weight = 0.5 * species.charge * species.charge;
    take_apart(species.composition, row);
    const Component first = species.composition.begin()->component;
    row.reacts = row.parts > 1 || row.unknowns > 0 || imposed_[index_of(first)];
    if (!row.reacts) row.molality = totals_[first];
  }
}

void MassBalance::take_apart(const Composition& composition, Row& row) const {
  for (const Part& part : composition) {
    std::size_t place = row.parts++;
    const int unknown = unknown_of_[index_of(part.component)];
    // Unknowns stay in order, whatever the order of the composition: one half of the matrix.
    const auto goes_before = [&](std::size_t other) {
      return unknown >= 0 &&
             (other >= row.unknowns || row.unknown[other] > static_cast<std::size_t>(unknown));
    };
    for (; place > 0 && goes_before(place - 1); --place) {
      row.number[place] = row.number[place - 1];
      row.component[place] = row.component[place - 1];
      row.unknown[place] = row.unknown[place - 1];
    }
    row.number[place] = part.number;
    row.component[place] = index_of(part.component);
    if (unknown < 0) continue;
    row.unknown[place] = static_cast<std::size_t>(unknown);
    ++row.unknowns;
  }
}

void MassBalance::start_from_scratch() {
  const double log_h = unknown_of_[0] < 0 ? log_activity_[0] : -7.5 * ln10;
  log_activity_[0] = log_h;
  for (std::size_t u = 0; u < size_; ++u)
    if (unknown_[u] != Component::alkalinity)
      log_activity_[index_of(unknown_[u])] = start_of(unknown_[u], log_h);
  double charges = std::abs(totals_[Component::alkalinity]);
  for (std::size_t i = 1; i < component_count; ++i) {
    const int z = table_.component(static_cast<Component>(i)).charge;
    charges += totals_.at(i) * z * z;
  }
  ionic_strength_ = std::max(charges / 2, 1e-7);
}

double MassBalance::start_of(Component c, double log_h) const {
  double share = 0;
  for (std::size_t r = 0; r < row_count_; ++r) {
    const Composition& made_of = table_.species()[rows_[r].species].composition;
    const int n = made_of.of(c);
    const int h = made_of.of(Component::alkalinity);
    if (n > 0 && made_of.size() == (h == 0 ? 1U : 2U))
      share += n * std::exp(rows_[r].log_k + h * log_h);
  }
  return std::log(totals_[c] / share);
}

void MassBalance::start_near(const Speciation& near) {
  const double near_h = near.log_activity[0];
  const double log_h = near_h != 0 ? near_h : -7.5 * ln10;
  if (unknown_of_[0] >= 0) log_activity_[0] = log_h;
  for (std::size_t u = 0; u < size_; ++u) {
    if (unknown_[u] == Component::alkalinity) continue;
    const double known = near.log_activity[index_of(unknown_[u])];
    log_activity_[index_of(unknown_[u])] = known != 0 ? known : start_of(unknown_[u], log_h);
  }
  ionic_strength_ = near.ionic_strength;
}

void MassBalance::set_ionic_strength(double ionic_strength) {
  ionic_strength_ = ionic_strength;
  if (ideal_ || ionic_strength == strength_of_gammas_) return;
  strength_of_gammas_ = ionic_strength;
  const Medium here = medium(constants_, ionic_strength);
  for (std::size_t r = 0; r < row_count_; ++r) {
    const Species& species = table_.species()[rows_[r].species];
    const LogGamma gamma = chemistry::log_gamma(species.activity, species.charge, here);
    rows_[r].log_gamma = ln10 * gamma.value;
    rows_[r].gamma_slope = ln10 * gamma.slope;
  }
}

void MassBalance::update_species() {
  for (std::size_t r = 0; r < row_count_; ++r) {
    Row& row = rows_[r];
    if (!row.reacts) continue;
    double exponent = row.log_k - row.log_gamma;
    for (std::size_t k = 0; k < row.parts; ++k)
      exponent += row.number[k] * log_activity_[row.component[k]];
    row.molality = std::exp(exponent);
  }
}

void MassBalance::residual(Vector& result) const {
  for (std::size_t u = 0; u < size_; ++u) {
    const Component c = unknown_[u];
    result[u] = c == Component::alkalinity ? totals_[c] : -totals_[c];
  }
  for (std::size_t r = 0; r < row_count_; ++r) {
    const Row& row = rows_[r];
    for (std::size_t k = 0; k < row.unknowns; ++k)
      result[row.unknown[k]] += row.number[k] * row.molality;
  }
}

Linearised MassBalance::linearised() const {
  Linearised result;
  residual(result.residual);
  for (std::size_t u = 0; u < size_; ++u) std::fill_n(result.jacobian[u].begin(), u + 1, 0.0);
  std::fill_n(result.by_strength.begin(), size_, 0.0);
  std::fill_n(result.strength_by.begin(), size_, 0.0);
  for (std::size_t r = 0; r < row_count_; ++r) linearise(rows_[r], result);
  return result;
}

void MassBalance::linearise(const Row& row, Linearised& result) const {
  const double weighted = row.weight * row.molality;
  result.ionic_strength += weighted;
  if (!row.reacts) return;
  result.own_slope -= weighted * row.gamma_slope;
  for (std::size_t i = 0; i < row.unknowns; ++i) {
    const std::size_t u = row.unknown[i];
    const double change = row.number[i] * row.molality;
    result.by_strength[u] -= change * row.gamma_slope;
    result.strength_by[u] += row.number[i] * weighted;
    for (std::size_t j = 0; j <= i; ++j)
      result.jacobian[u][row.unknown[j]] += row.number[j] * change;
  }
}

void MassBalance::move(const Vector& step, double factor) {
  for (std::size_t u = 0; u < size_; ++u) log_activity_[index_of(unknown_[u])] += factor * step[u];
}

Component MassBalance::saltiest() const {
  const auto weight = [&](std::size_t i) {
    const int z = i == 0 ? 1 : table_.component(static_cast<Component>(i)).charge;
    return std::abs(totals_.at(i)) * z * z;
  };
  std::size_t most = 0;
  for (std::size_t i = 1; i < component_count; ++i)
    if (weight(i) > weight(most)) most = i;
  return static_cast<Component>(most);
}

double MassBalance::held(Component c) const {
  double sum = 0;
  for (std::size_t r = 0; r < row_count_; ++r)
    sum += table_.species()[rows_[r].species].composition.of(c) * rows_[r].molality;
  return sum;
}

Speciation MassBalance::result(int steps) const {
  Speciation speciation;
  speciation.ph = -log_activity_[0] / ln10;
  speciation.ionic_strength = ionic_strength_;
  speciation.log_activity = log_activity_;
  speciation.steps = steps;
  for (std::size_t r = 0; r < row_count_; ++r) {
    const Row& row = rows_[r];
    speciation.molality[row.species] = row.molality;
    speciation.log10_gamma[row.species] = row.log_gamma / ln10;
    if (!row.reacts) {
      const Component c = table_.species()[row.species].composition.begin()->component;
      speciation.log_activity[index_of(c)] = std::log(row.molality) + row.log_gamma;
    }
  }
  return speciation;
}

void MassBalance::fill_response(const Vector& change, std::optional<Component> total,
                                double strength, std::array<double, component_count>& log_activity,
                                std::array<double, max_species>& molality) const {
  for (std::size_t u = 0; u < size_; ++u) log_activity[index_of(unknown_[u])] = change[u];
  for (std::size_t r = 0; r < row_count_; ++r) {
    const Row& row = rows_[r];
    const Composition& made_of = table_.species()[row.species].composition;
    const Component first = made_of.begin()->component;
    if (!row.reacts) {
      molality[row.species] = first == total ? 1 : 0;
      log_activity[index_of(first)] =
          molality[row.species] / row.molality + row.gamma_slope * strength;
      continue;
    }
    double relative = -row.gamma_slope * strength;
    for (const Part& part : made_of)
      relative += part.number * log_activity[index_of(part.component)];
    molality[row.species] = row.molality * relative;
  }
}

void MassBalance::second_order(const std::array<double, max_species>& first,
                               const std::array<double, max_species>& second, double strengths,
                               Vector& balances, double& strength) const {
  const Medium here = medium(constants_, ionic_strength_);
  for (std::size_t r = 0; r < row_count_; ++r) {
    const Row& row = rows_[r];
    if (!row.reacts) continue;
    const Species& species = table_.species()[row.species];
    const double curvature =
        ideal_ ? 0 : ln10 * log_gamma_curvature(species.activity, species.charge, here);
    const double change = first[row.species] * second[row.species] / row.molality -
                          row.molality * curvature * strengths;
    strength += row.weight * change;
    for (std::size_t k = 0; k < row.unknowns; ++k)
      balances[row.unknown[k]] += row.number[k] * change;
  }
}

void MassBalance::shift_constants(const std::array<double, max_species>& shift, Vector& balances,
                                  double& strength) const {
  for (std::size_t r = 0; r < row_count_; ++r) {
    const Row& row = rows_[r];
    const double change = row.molality * shift[row.species];
    strength += row.weight * change;
    for (std::size_t k = 0; k < row.unknowns; ++k)
      balances[row.unknown[k]] += row.number[k] * change;
  }
}

void MassBalance::add_shift(const std::array<double, max_species>& shift,
                            std::array<double, max_species>& molality) const {
  for (std::size_t r = 0; r < row_count_; ++r)
    molality[rows_[r].species] += rows_[r].molality * shift[rows_[r].species];
}

}  // namespace tub::chemistry
