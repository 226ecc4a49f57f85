// The mass balances of one water as a system of equations; for use inside the module only.
//
// Unknowns are x = ln of the masters' activities. A species holds
//   c = exp(ln K + sum of n x - ln gamma)   (equation 6)
// and each component's balance is: sum of n c = its total. At given activity coefficients this is
// the gradient of a convex function of x (equation 7).
#pragma once

#include <array>
#include <optional>
#include <span>

#include "chemistry/activity.h"
#include "chemistry/speciate.h"

namespace tub::chemistry {

/// A component whose activity is imposed, so that its total follows.
struct Imposed {
  Component component = Component::alkalinity;
  double log_activity = 0;  ///< natural logarithm
};

/// The most components that can react with one another at once.
inline constexpr std::size_t max_unknowns = 16;

using Vector = std::array<double, max_unknowns>;
using Matrix = std::array<Vector, max_unknowns>;

/// The balances and the ionic strength of one state, and how they change with x and with the ionic
/// strength in the activity coefficients. Only the first entries, one an unknown, are set.
struct Linearised {
  Matrix jacobian;       ///< of the balances to x: symmetric, positive definite; lower half only
  Vector residual;       ///< balances less totals
  Vector by_strength;    ///< of the balances to ionic strength at constant x
  Vector strength_by;    ///< of the species' ionic strength to x
  double own_slope = 0;  ///< of the same to the ionic strength in the coefficients
  double ionic_strength = 0;  ///< of the species
};

/// The equations of one water. Holds everything in itself: no allocation.
class MassBalance {
 public:
  /// REQUIRES: the table outlives this.
  /// Throws: Error naming a total that is negative or not finite
  MassBalance(const Water& water, const SpeciesTable& table, std::span<const Imposed> imposed);

  /// Takes another water's totals, its species where they are: a start near the solution for a
  /// similar water. False, and nothing done, where the equations would be others: another
  /// temperature or activity model, a component more or less.
  /// Throws: Error naming a total that is negative or not finite
  bool retake(const Water& water);

  std::size_t unknowns() const { return size_; }
  Component component(std::size_t unknown) const { return unknown_[unknown]; }

  double& log_activity(Component c) { return log_activity_[static_cast<std::size_t>(c)]; }
  double log_activity(Component c) const { return log_activity_[static_cast<std::size_t>(c)]; }
  double ionic_strength() const { return ionic_strength_; }

  /// A start: pH 7.5, and every component spread over the species that it forms alone.
  void start_from_scratch();
  void start_near(const Speciation& near);

  /// Activity coefficients at an ionic strength.
  void set_ionic_strength(double ionic_strength);
  /// Molalities at the present x; then residuals and derivatives are of these.
  void update_species();

  /// Balances less totals.
  void residual(Vector& result) const;
  /// Everything that Newton's method needs of the present species, in one pass over them.
  Linearised linearised() const;

  /// Moves the unknowns by `factor` times a step.
  void move(const Vector& step, double factor);

  /// The component whose total counts most in ionic strength.
  Component saltiest() const;

  /// What the species hold of a component.
  double held(Component c) const;

  Speciation result(int steps) const;

  /// What a change of the unknowns, of ionic strength and of one total does to the masters'
  /// activities and to every species.
  void fill_response(const Vector& change, std::optional<Component> total, double strength,
                     std::array<double, component_count>& log_activity,
                     std::array<double, max_species>& molality) const;

  /// The second-order change of the balances and of ionic strength, from two first-order changes
  /// of the species and the product of those of ionic strength.
  void second_order(const std::array<double, max_species>& first,
                    const std::array<double, max_species>& second, double strengths,
                    Vector& balances, double& strength) const;

  /// The change of the balances and of ionic strength if ln K of each species were larger by so
  /// much, and that change of the species themselves.
  void shift_constants(const std::array<double, max_species>& shift, Vector& balances,
                       double& strength) const;
  void add_shift(const std::array<double, max_species>& shift,
                 std::array<double, max_species>& molality) const;

 private:
  // Left unset until a species is chosen: most of the room is never used.
  struct Row {
    std::size_t species;
    double log_k;  // natural
    double log_gamma;
    double gamma_slope;  // d ln gamma / dI
    double molality;
    double weight;      // half the square of the charge
    std::size_t parts;  // those that are unknown first, in their order
    std::size_t unknowns;
    std::array<double, 4> number;
    std::array<std::size_t, 4> component;
    std::array<std::size_t, 4> unknown;
    bool reacts;  // false: the component's only species
  };

  void check(const Water& water) const;
  bool is_present(const Water& water, std::size_t component) const;
  void choose_components(const Water& water, std::span<const Imposed> imposed);
  void choose_species(const Water& water);
  void take_apart(const Composition& composition, Row& row) const;
  void linearise(const Row& row, Linearised& result) const;
  double start_of(Component c, double log_h) const;

  const SpeciesTable& table_;
  Temperature temperature_;
  bool ideal_ = false;
  DebyeHueckel constants_;
  Totals totals_;
  std::array<bool, component_count> present_{};
  std::array<bool, component_count> imposed_{};
  std::array<int, component_count> unknown_of_{};
  std::array<Component, max_unknowns> unknown_{};
  std::size_t size_ = 0;
  std::array<Row, max_species> rows_;
  std::size_t row_count_ = 0;
  std::array<double, component_count> log_activity_{};
  double ionic_strength_ = 0;
  double strength_of_gammas_ = -1;  // that the coefficients stand for
};

}  // namespace tub::chemistry
