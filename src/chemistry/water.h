// Water as what is conserved: totals of a few components per kilogram of water, and a temperature.
#pragma once

#include <array>
#include <cstddef>
#include <string_view>

#include "units/temperature.h"

namespace tub::chemistry {

/// What no mixing, heating or acid can make or destroy. Alkalinity is the acid-neutralising
/// capacity against CO2, H3BO3, HOCl, HOBr, H3Cy and HSO5-: the charge of the strong cations less
/// that of the strong anions. The `_held` metals are the sequestered part of the metal's total.
enum class Component : std::size_t {
  alkalinity,
  carbonate,
  calcium,
  magnesium,
  sodium,
  potassium,
  chloride,
  sulfate,
  nitrate,
  borate,
  cyanurate,
  chlorine,
  combined_chlorine,
  bromide,
  bromine,
  peroxymonosulfate,
  dimethylhydantoin,
  copper,
  iron,
  manganese,
  copper_held,
  iron_held,
  manganese_held,
};

inline constexpr std::size_t component_count = 23;

/// Names as in the data file, in the order of Component.
inline constexpr std::array<std::string_view, component_count> component_names = {
    "alkalinity",
    "carbonate",
    "calcium",
    "magnesium",
    "sodium",
    "potassium",
    "chloride",
    "sulfate",
    "nitrate",
    "borate",
    "cyanurate",
    "chlorine",
    "combined_chlorine",
    "bromide",
    "bromine",
    "peroxymonosulfate",
    "dimethylhydantoin",
    "copper",
    "iron",
    "manganese",
    "copper_held",
    "iron_held",
    "manganese_held"};

constexpr std::string_view name_of(Component component) {
  return component_names[static_cast<std::size_t>(component)];
}

/// An amount of each component, in mol per kg of water (alkalinity in mol of charge per kg).
class Totals {
 public:
  constexpr double& operator[](Component c) { return amount_[static_cast<std::size_t>(c)]; }
  constexpr double operator[](Component c) const { return amount_[static_cast<std::size_t>(c)]; }
  constexpr double& at(std::size_t i) { return amount_[i]; }
  constexpr double at(std::size_t i) const { return amount_[i]; }

  constexpr Totals& operator+=(const Totals& other) {
    for (std::size_t i = 0; i < component_count; ++i) amount_[i] += other.amount_[i];
    return *this;
  }
  friend constexpr Totals operator+(Totals a, const Totals& b) { return a += b; }
  friend constexpr Totals operator*(Totals a, double factor) {
    for (double& amount : a.amount_) amount *= factor;
    return a;
  }
  friend constexpr Totals operator*(double factor, const Totals& a) { return a * factor; }
  friend constexpr Totals operator-(const Totals& a, const Totals& b) { return a + b * -1.0; }
  friend constexpr bool operator==(const Totals&, const Totals&) = default;

 private:
  std::array<double, component_count> amount_{};
};

/// How an ion's activity differs from its concentration.
enum class Activities { extended_debye_hueckel, ideal };

/// A plain value; pH and species are derived by `speciate`, never stored.
struct Water {
  Temperature temperature = celsius(25);
  Totals totals;
  Activities activities = Activities::extended_debye_hueckel;

  friend bool operator==(const Water&, const Water&) = default;
};

}  // namespace tub::chemistry
