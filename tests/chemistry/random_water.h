// Waters drawn at random over the stated range, the same on every machine.
#pragma once

#include <cstdint>
#include <optional>
#include <string_view>

#include "base/error.h"
#include "chemistry/operations.h"

namespace tub::chemistry {

/// Numbers from a seed: splitmix64 (Steele, Lea & Flood 2014).
class Dice {
 public:
  explicit Dice(std::uint64_t seed) : state_(seed) {}
  double between(double low, double high) { return low + (high - low) * unit(); }
  /// Zero as often as `chance` says, else between 0 and high.
  double sometimes(double chance, double high) { return unit() < chance ? 0 : between(0, high); }
  double unit() { return static_cast<double>(next() >> 11U) * 0x1p-53; }

 private:
  std::uint64_t next() {
    state_ += 0x9E3779B97F4A7C15U;
    std::uint64_t z = state_;
    z = (z ^ (z >> 30U)) * 0xBF58476D1CE4E5B9U;
    z = (z ^ (z >> 27U)) * 0x94D049BB133111EBU;
    return z ^ (z >> 31U);
  }
  std::uint64_t state_;
};

/// 0 to 45 °C, pH 4 to 11, alkalinity to 500, hardness to 1,500, dissolved solids to about 6,000,
/// cyanuric acid to 300 and free chlorine to 50 mg/L, with the rest that a tub may hold.
inline Readings random_readings(Dice& dice) {
  Readings r;
  r.temperature_c = dice.between(0, 45);
  r.ph = dice.between(4, 11);
  r.total_alkalinity_mg_l = dice.between(0, 500);
  r.calcium_hardness_mg_l = dice.sometimes(0.1, 1000);
  r.magnesium_hardness_mg_l = dice.sometimes(0.1, 500);
  r.potassium_mg_l = dice.sometimes(0.3, 50);
  r.chloride_mg_l = dice.sometimes(0.05, 2400);
  r.sulfate_mg_l = dice.sometimes(0.1, 900);
  r.nitrate_mg_l = dice.sometimes(0.3, 50);
  r.borate_as_boron_mg_l = dice.sometimes(0.5, 60);
  r.cyanuric_acid_mg_l = dice.sometimes(0.3, 300);
  r.free_chlorine_mg_l = dice.sometimes(0.3, 50);
  r.combined_chlorine_mg_l = dice.sometimes(0.5, 3);
  r.iron_mg_l = dice.sometimes(0.5, 1);
  return r;
}

/// A random water, its charge closed by sodium or else by chloride; nothing if it cannot exist:
/// its inorganic carbon would be negative, or above 20 mmol/kg. Any other failure is thrown on.
inline std::optional<Water> random_water(Dice& dice, const SpeciesTable& table) {
  const Readings readings = random_readings(dice);
  const auto message = [](const Error& error) {
    return std::string_view(error.diagnostics().front().message);
  };
  for (const Balance balance : {Balance::sodium, Balance::chloride}) {
    try {
      const Water water = water_from_readings(readings, balance, table);
      if (water.totals[Component::carbonate] > 0.020) return std::nullopt;
      return water;
    } catch (const Error& error) {
      if (message(error).starts_with("inorganic carbon would")) return std::nullopt;
      if (!message(error).starts_with("charge balance would")) throw;
    }
  }
  return std::nullopt;
}

}  // namespace tub::chemistry
