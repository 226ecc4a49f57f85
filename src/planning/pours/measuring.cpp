#include "planning/pours/measuring.h"

#include "planning/pours/divisions.h"

namespace tub::planning {
namespace {

/// Source: definition, international avoirdupois ounce and US customary fluid ounce.
constexpr double grams_per_ounce = 28.349523125;
constexpr double ml_per_us_fluid_ounce = 29.5735295625;

/// Liquids under this many of the jug's steps are printed to the millilitre beside their spoons.
/// Assumption: a spoon is read finer than a jug.
constexpr double jug_steps_before_coarse = 10;

/// What stands beside spoons is shown in so many steps at least: within a twentieth of them.
constexpr double least_steps_beside_spoons = 10;
constexpr double finest_plain = 0.1;   // of grams and millilitres: a fine scale, a syringe
constexpr double finest_ounce = 1e-3;  // a tenth of what such a scale tells

}  // namespace

Measuring::Measuring(const MeasureSystem& system, const Product& product, double size) {
  const bool is_liquid = product.form == Form::liquid;
  if (is_liquid && system.volume_unit != "ml") {
    unit_ = system.volume_unit;
    unit_size_ = ml_per_us_fluid_ounce;
    step_ = system.grain_oz;
  } else if (is_liquid) {
    step_ = system.grain_ml;
  } else if (system.mass_unit == "oz") {
    unit_ = system.mass_unit;
    unit_size_ = grams_per_ounce;
    step_ = system.grain_oz;
  } else {
    step_ = system.grain_g;
    coarse_step_ = system.coarse_grain_g;
    coarse_from_ = system.coarse_from_g;
  }
  const double size_per_ml = is_liquid ? 1 : product.bulk_density_g_ml.value_or(0);
  if (size_per_ml > 0) choose_spoon(system.spoons, size_per_ml, size);
  if (is_liquid && uses_spoons() && unit_.empty()) {
    coarse_step_ = step_;
    coarse_from_ = jug_steps_before_coarse * step_;
    step_ = 1;
  }
}

Measuring Measuring::finely() {
  Measuring fine;
  fine.step_ = 0.1;
  return fine;
}

void Measuring::choose_spoon(const std::vector<Spoon>& spoons, double size_per_ml, double size) {
  for (const Spoon& spoon : spoons) {
    spoonful_ = spoon.volume_ml * size_per_ml;
    spoon_grain_ = spoon.grain;
    spoon_unit_ = spoon.unit;
    if (size <= spoon.most * spoonful_) return;
  }
}

double Measuring::smallest() const {
  return uses_spoons() ? spoon_grain_ * spoonful_ : step_ * unit_size_;
}

Measuring::Amount Measuring::down(double size) const {
  if (!uses_spoons()) return of_steps(division_down(size / unit_size_, step_at(size)));
  double count = division_down(size / spoonful_, spoon_grain_);
  // The scale's steps beside the spoons may round up, past what was allowed.
  while (count > 0 && of_spoons(count).size > size) count -= spoon_grain_;
  return of_spoons(count);
}

Measuring::Amount Measuring::nearest(double size) const {
  if (uses_spoons()) return of_spoons(division_nearest(size / spoonful_, spoon_grain_));
  return of_steps(division_nearest(size / unit_size_, step_at(size)));
}

double Measuring::step_at(double size) const {
  return coarse_from_ > 0 && size >= coarse_from_ ? coarse_step_ : step_;
}

// The scale's own step, or a tenth or a hundredth of it where that says too little.
double Measuring::step_beside_spoons(double count) const {
  const double finest = unit_.empty() ? finest_plain : finest_ounce;
  double step = step_at(count);
  while (count < least_steps_beside_spoons * step && step / 10 > finest * 0.99) step /= 10;
  return step;
}

// Whoever has spoons measures by them: the weight beside them is theirs, and what is printed is
// what is predicted from.
Measuring::Amount Measuring::of_spoons(double count) const {
  if (count <= 0) return {};
  const double beside = count * spoonful_ / unit_size_;
  Amount amount = of_steps(division_nearest(beside, step_beside_spoons(beside)));
  amount.measure.push_back({count, spoon_unit_});
  return amount;
}

Measuring::Amount Measuring::of_steps(double count) const {
  if (count <= 0) return {};
  if (unit_.empty()) return {count, {}};
  return {count * unit_size_, {{count, unit_}}};
}

}  // namespace tub::planning
