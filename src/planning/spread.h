// How far a predicted value may be off: the sum of independent errors, as quantiles and chances.
#pragma once

#include <array>

#include "base/interval.h"

namespace tub {

/// Half of a normal's middle 90 %, in standard deviations.
inline constexpr double z_90 = 1.6448536269514722;

/// The share of a standard normal below z.
double normal_share_below(double z);

/// What one independent source does to a value: its change where the source lies at fractions of
/// its 90 % half-width.
struct ErrorEffect {
  double at_low = 0;   ///< change at -1 (two-sided), or at half the loss (one-sided)
  double at_high = 0;  ///< change at +1, or at the whole loss that nine in ten stay within
  bool is_one_sided = false;
};

/// A value with an error that is the sum of many: kept as its first four cumulants.
///
/// Every source is a normal (or, one-sided, the absolute value of one) through a parabola; the
/// quantiles are those of Cornish and Fisher.
/// Source:  Cornish & Fisher 1937, Revue de l'Institut International de Statistique 5, 307
/// Checked: against random draws, tests/planning/spread_test.cpp
class Spread {
 public:
  explicit Spread(double predicted) : predicted_(predicted) {}

  void add(const ErrorEffect& response);
  /// An error of the test that will read the value: a plain normal. half_width: 90 %.
  void add_normal(double half_width);

  double predicted() const { return predicted_; }
  /// The value that a standard normal quantile z stands for.
  double quantile(double z) const;
  /// The middle 90 %, around the predicted value.
  Interval interval() const;
  /// The chance to lie below a value.
  double chance_below(double value) const;

 private:
  double predicted_;
  std::array<double, 4> cumulants_{};  // mean shift, variance, third, fourth
};

}  // namespace tub
