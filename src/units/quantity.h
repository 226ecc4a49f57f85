// One type per kind of quantity; the unit is named where a number enters or leaves.
#pragma once

#include <compare>

#include "base/modules.h"

namespace tub {

/// An amount of one kind, kept in its SI unit. Kinds that share a dimension do not add.
template <class Kind>
class Quantity {
 public:
  constexpr Quantity() = default;
  /// REQUIRES: a value in the kind's SI unit; named constructors below say the unit.
  static constexpr Quantity from_si(double value) { return Quantity(value); }
  constexpr double si() const { return value_; }

  friend constexpr Quantity operator+(Quantity a, Quantity b) {
    return Quantity(a.value_ + b.value_);
  }
  friend constexpr Quantity operator-(Quantity a, Quantity b) {
    return Quantity(a.value_ - b.value_);
  }
  friend constexpr Quantity operator*(Quantity a, double k) { return Quantity(a.value_ * k); }
  friend constexpr Quantity operator*(double k, Quantity a) { return Quantity(a.value_ * k); }
  friend constexpr Quantity operator/(Quantity a, double k) { return Quantity(a.value_ / k); }
  friend constexpr double operator/(Quantity a, Quantity b) { return a.value_ / b.value_; }
  friend constexpr auto operator<=>(Quantity, Quantity) = default;

 private:
  explicit constexpr Quantity(double value) : value_(value) {}
  double value_ = 0;
};

using Volume = Quantity<struct VolumeKind>;                        // m³
using Mass = Quantity<struct MassKind>;                            // kg
using Length = Quantity<struct LengthKind>;                        // m
using Duration = Quantity<struct DurationKind>;                    // s
using Flow = Quantity<struct FlowKind>;                            // m³/s
using MassConcentration = Quantity<struct MassConcentrationKind>;  // kg/m³
using Alkalinity = Quantity<struct AlkalinityKind>;                // mol of charge per m³
using Hardness = Quantity<struct HardnessKind>;                    // mol of Ca or Mg per m³
using FreeChlorine = Quantity<struct FreeChlorineKind>;            // mol of Cl2 per m³
using TemperatureChange = Quantity<struct TemperatureChangeKind>;  // K

/// A point on the temperature scale. Points do not add; their difference is a TemperatureChange.
class Temperature {
 public:
  static constexpr Temperature from_kelvin(double value) { return Temperature(value); }
  constexpr double kelvin() const { return kelvin_; }
  constexpr double celsius() const { return kelvin_ - 273.15; }
  constexpr double fahrenheit() const { return celsius() * 1.8 + 32; }

  friend constexpr TemperatureChange operator-(Temperature a, Temperature b) {
    return TemperatureChange::from_si(a.kelvin_ - b.kelvin_);
  }
  friend constexpr Temperature operator+(Temperature a, TemperatureChange b) {
    return Temperature(a.kelvin_ + b.si());
  }
  friend constexpr auto operator<=>(Temperature, Temperature) = default;

 private:
  explicit constexpr Temperature(double value) : kelvin_(value) {}
  double kelvin_ = 298.15;
};

constexpr Temperature celsius(double value) { return Temperature::from_kelvin(value + 273.15); }
constexpr Temperature fahrenheit(double value) { return celsius((value - 32) / 1.8); }
constexpr Volume litres(double value) { return Volume::from_si(value * 1e-3); }
constexpr double in_litres(Volume volume) { return volume.si() * 1e3; }
constexpr Mass grams(double value) { return Mass::from_si(value * 1e-3); }
constexpr double in_grams(Mass mass) { return mass.si() * 1e3; }
constexpr MassConcentration milligrams_per_litre(double value) {
  return MassConcentration::from_si(value * 1e-3);
}
constexpr Mass operator*(MassConcentration c, Volume v) { return Mass::from_si(c.si() * v.si()); }

/// Grams of CaCO3 per equivalent of alkalinity and per mole of hardness. Source: IUPAC abridged
/// standard atomic weights (from memory): Ca 40.078, C 12.011, O 15.999.
inline constexpr double caco3_molar_mass = 100.086;

constexpr Alkalinity alkalinity_as_caco3(MassConcentration c) {
  return Alkalinity::from_si(c.si() * 1e3 / (caco3_molar_mass / 2));
}
constexpr Hardness hardness_as_caco3(MassConcentration c) {
  return Hardness::from_si(c.si() * 1e3 / caco3_molar_mass);
}
constexpr double milligrams_per_litre_as_caco3(Alkalinity a) {
  return a.si() * caco3_molar_mass / 2;
}
constexpr double milligrams_per_litre_as_caco3(Hardness h) { return h.si() * caco3_molar_mass; }

}  // namespace tub
