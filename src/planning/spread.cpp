#include "planning/spread.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace tub {
namespace {

/// Cumulants of linear z + square z² for a standard normal z.
std::array<double, 4> two_sided(double linear, double square) {
  const double l2 = linear * linear;
  const double s2 = square * square;
  return {square, l2 + 2 * s2, 6 * l2 * square + 8 * s2 * square, 48 * l2 * s2 + 48 * s2 * s2};
}

/// Cumulants of linear |z| + square z² for a standard normal z, from its moments.
std::array<double, 4> one_sided(double linear, double square) {
  const double root = std::sqrt(2 / std::numbers::pi);
  // Moments of |z|: 1, root, 1, 2 root, 3, 8 root, 15, 48 root, 105.
  const double l2 = linear * linear;
  const double s2 = square * square;
  const double m1 = linear * root + square;
  const double m2 = l2 + 2 * linear * square * 2 * root + 3 * s2;
  const double m3 =
      l2 * linear * 2 * root + 3 * l2 * square * 3 + 3 * linear * s2 * 8 * root + s2 * square * 15;
  const double m4 = l2 * l2 * 3 + 4 * l2 * linear * square * 8 * root + 6 * l2 * s2 * 15 +
                    4 * linear * s2 * square * 48 * root + s2 * s2 * 105;
  return {m1, m2 - m1 * m1, m3 - 3 * m2 * m1 + 2 * m1 * m1 * m1,
          m4 - 4 * m3 * m1 - 3 * m2 * m2 + 12 * m2 * m1 * m1 - 6 * m1 * m1 * m1 * m1};
}

}  // namespace

double normal_share_below(double z) { return 0.5 * std::erfc(-z / std::numbers::sqrt2); }

void Spread::add(const ErrorEffect& response) {
  std::array<double, 4> more{};
  if (response.is_one_sided) {
    // A parabola through 0, half the loss and the whole: f(u) = a u + b u², u = |z| / z_90.
    const double b = 2 * response.at_high - 4 * response.at_low;
    const double a = response.at_high - b;
    more = one_sided(a / z_90, b / (z_90 * z_90));
  } else {
    const double a = (response.at_high - response.at_low) / 2;
    const double b = (response.at_high + response.at_low) / 2;
    more = two_sided(a / z_90, b / (z_90 * z_90));
  }
  for (std::size_t i = 0; i < 4; ++i) cumulants_[i] += more[i];
}

void Spread::add_normal(double half_width) { add({-half_width, half_width, false}); }

double Spread::quantile(double z) const {
  const double deviation = std::sqrt(cumulants_[1]);
  if (deviation <= 0) return predicted_ + cumulants_[0];
  const double skewness = cumulants_[2] / (cumulants_[1] * deviation);
  const double excess = cumulants_[3] / (cumulants_[1] * cumulants_[1]);
  const double bent = z + (z * z - 1) * skewness / 6 + (z * z * z - 3 * z) * excess / 24 -
                      (2 * z * z * z - 5 * z) * skewness * skewness / 36;
  return predicted_ + cumulants_[0] + deviation * bent;
}

// A parabola is a poor picture of a response that bends hard (pH of water that holds nothing): what
// is predicted stays inside its own interval.
Interval Spread::interval() const {
  return {std::min(predicted_, quantile(-z_90)), predicted_, std::max(predicted_, quantile(z_90))};
}

double Spread::chance_below(double value) const {
  double low = -8;
  double high = 8;
  if (quantile(low) >= value) return 0;
  if (quantile(high) <= value) return 1;
  for (int i = 0; i < 60; ++i) {
    const double middle = (low + high) / 2;
    (quantile(middle) < value ? low : high) = middle;
  }
  return normal_share_below((low + high) / 2);
}

}  // namespace tub
