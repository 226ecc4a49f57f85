// Temperature, whose unit is named where a number enters or leaves, and the mass that hardness counts by.
#pragma once

#include <compare>

#include "base/modules.h"

namespace tub {

/// A point on the temperature scale. Points do not add.
class Temperature {
 public:
  static constexpr Temperature from_kelvin(double value) { return Temperature(value); }
  constexpr double kelvin() const { return kelvin_; }
  constexpr double celsius() const { return kelvin_ - 273.15; }
  constexpr double fahrenheit() const { return celsius() * 1.8 + 32; }

  friend constexpr auto operator<=>(Temperature, Temperature) = default;

 private:
  explicit constexpr Temperature(double value) : kelvin_(value) {}
  double kelvin_ = 298.15;
};

constexpr Temperature celsius(double value) { return Temperature::from_kelvin(value + 273.15); }
constexpr Temperature fahrenheit(double value) { return celsius((value - 32) / 1.8); }

/// Grams of CaCO3 per equivalent of alkalinity and per mole of hardness. Source: IUPAC abridged
/// standard atomic weights (from memory): Ca 40.078, C 12.011, O 15.999.
inline constexpr double caco3_molar_mass = 100.086;

}  // namespace tub
