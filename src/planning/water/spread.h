// How far a predicted value may be off: the sum of independent errors, as quantiles and chances.
#pragma once

#include <array>
#include <optional>
#include <vector>

#include "base/interval.h"

namespace tub::planning {

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
  bool is_cut = false;  ///< of a source that is no whole normal: it ends where there is nothing

  /// The change for a small one, in half-widths.
  double slope() const;
};

/// A value with an error that is the sum of many.
///
/// As moments: every source is a normal (or, one-sided, the absolute value of one) through a
/// parabola, of which the first four cumulants are kept; the quantiles are those of Cornish and
/// Fisher. Where `is_trusted` says that this is no picture of the value, as draws: values of whole
/// waters, sorted.
/// Source:  Cornish & Fisher 1937, Revue de l'Institut International de Statistique 5, 307
/// Checked: against random draws, tests/planning/spread_test.cpp
class Spread {
 public:
  explicit Spread(double predicted) : predicted_(predicted) {}
  /// REQUIRES: not empty
  static Spread of_draws(double predicted, std::vector<double> values);

  /// REQUIRES: no draws
  void add(const ErrorEffect& response);
  /// An error of the test that will read the value: a plain normal. half_width: 90 %.
  void add_normal(double half_width);
  /// What is read of a value that a test shows no less of: less than none reads as none.
  void read_as_no_less_than(double least) { least_ = least; }

  double predicted() const { return predicted_; }
  bool is_drawn() const { return !draws_.empty(); }
  /// Whether the moments are a picture of a value that cannot leave these bounds: no source that is
  /// cut matters, none turns back within what the draws reach, the quantiles rise throughout and
  /// stay within the bounds.
  bool is_trusted(const Range& possible) const;
  /// The value that a standard normal quantile z stands for.
  double quantile(double z) const;
  /// The middle 90 %, around the predicted value.
  Interval interval() const;
  /// The chance to lie below a value.
  double chance_below(double value) const;

 private:
  double drawn_quantile(double share) const;
  double drawn_share_below(double value) const;

  double predicted_;
  std::array<double, 4> cumulants_{};  // mean shift, variance, third, fourth
  double cut_variance_ = 0;            // of sources that are cut
  double turning_variance_ = 0;        // of sources whose parabola turns back
  std::vector<double> draws_;          // sorted
  double deviation_ = 0;               // of what is added to draws
  std::optional<double> least_;
};

}  // namespace tub::planning
