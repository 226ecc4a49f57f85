// Amounts that a person can measure: whole steps of a scale or a jug, whole parts of a spoon.
#pragma once

#include <vector>

#include "planning/tables/measure.h"
#include "planning/tables/product.h"

namespace tub::planning {

/// How one product is measured out. Sizes are in grams, or in mL for a liquid.
class Measuring {
 public:
  /// An amount as it is measured out; everything is predicted from `size`.
  struct Amount {
    double size = 0;
    std::vector<Measure> measure;  ///< spoons, ounces; none where the size itself is the measure
  };

  /// With the owner's own measure; with spoons if it has any and the product is a liquid or its
  /// bulk density is known. The spoon is the smallest that holds `size` in few enough spoonfuls.
  Measuring(const MeasureSystem& system, const Product& product, double size);
  /// With a 0.1 g scale or a 0.1 mL syringe, or portions measured out by the shop.
  static Measuring finely();

  bool uses_spoons() const { return spoonful_ > 0; }
  /// The smallest size that can be measured.
  double smallest() const;
  /// The largest measurable amount not above a size, and the nearest one.
  Amount down(double size) const;
  Amount nearest(double size) const;

 private:
  Measuring() = default;
  void choose_spoon(const std::vector<Spoon>& spoons, double size_per_ml, double size);
  double step_at(double size) const;
  double step_beside_spoons(double count) const;
  Amount of_spoons(double count) const;
  Amount of_steps(double size) const;

  double step_ = 1;         // of the scale or jug
  double coarse_step_ = 1;  // from coarse_from_ on
  double coarse_from_ = 0;  // 0: never
  double unit_size_ = 1;    // grams in an ounce, mL in a fluid ounce; 1: plain grams or mL
  std::string unit_;        // of the measure where that is not plain
  double spoonful_ = 0;     // size of one spoon; 0: no spoons
  double spoon_grain_ = 0;
  std::string spoon_unit_;
};

}  // namespace tub::planning
