#include "planning/water/spread.h"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "planning/water/draws.h"

namespace tub::planning {
namespace {

/// Of the variance: sources that no parabola of a normal pictures may have so much of it.
constexpr double most_unpictured = 0.02;
/// Quantiles are looked at so far out, in standard deviations of a normal.
constexpr double far_out = 2.5;
/// The least slope of the quantiles there, of a plain normal's.
constexpr double least_slope = 0.2;

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

/// linear u + square u², u in half-widths.
struct Parabola {
  double linear = 0;
  double square = 0;

  /// Within what the draws reach.
  bool turns_back() const {
    const double rises_beyond = 2 * std::abs(square) * outermost_draw;
    return !(std::abs(linear) > rises_beyond);
  }
};

/// Through 0 and the two ends: at -1 and +1, or at half the loss and the whole.
Parabola through(const ErrorEffect& effect) {
  if (effect.is_one_sided) {
    const double square = 2 * effect.at_high - 4 * effect.at_low;
    return {effect.at_high - square, square};
  }
  return {(effect.at_high - effect.at_low) / 2, (effect.at_high + effect.at_low) / 2};
}

}  // namespace

double normal_share_below(double z) { return 0.5 * std::erfc(-z / std::numbers::sqrt2); }

double ErrorEffect::slope() const { return through(*this).linear; }

Spread Spread::of_draws(double predicted, std::vector<double> values) {
  Spread spread(predicted);
  spread.draws_ = std::move(values);
  std::sort(spread.draws_.begin(), spread.draws_.end());
  return spread;
}

void Spread::add(const ErrorEffect& response) {
  const Parabola line = through(response);
  const double linear = line.linear / z_90;
  const double square = line.square / (z_90 * z_90);
  const std::array<double, 4> more =
      response.is_one_sided ? one_sided(linear, square) : two_sided(linear, square);
  for (std::size_t i = 0; i < 4; ++i) cumulants_[i] += more[i];
  if (response.is_cut) cut_variance_ += more[1];
  if (line.turns_back()) turning_variance_ += more[1];
}

void Spread::add_normal(double half_width) {
  if (is_drawn()) {
    deviation_ = std::hypot(deviation_, half_width / z_90);
  } else {
    add({-half_width, half_width});
  }
}

bool Spread::is_trusted(const Range& possible) const {
  const double variance = cumulants_[1];
  if (variance == 0) return true;
  // What is not finite is no less.
  if (!(cut_variance_ + turning_variance_ <= most_unpictured * variance)) return false;
  const double deviation = std::sqrt(variance);
  constexpr double step = 0.5;
  for (double z = -far_out; z < far_out; z += step) {
    if (!(quantile(z + step) - quantile(z) >= least_slope * step * deviation)) return false;
  }
  return possible.holds(quantile(-far_out)) && possible.holds(quantile(far_out));
}

double Spread::drawn_quantile(double share) const {
  if (deviation_ <= 0) return quantile_of(draws_, share);
  const auto missing = [&](double value) { return drawn_share_below(value) - share; };
  double low = draws_.front() - 8 * deviation_;
  double high = draws_.back() + 8 * deviation_;
  constexpr double near_enough = 1e-6;
  while (high - low > near_enough * deviation_) {
    const double middle = (low + high) / 2;
    (missing(middle) < 0 ? low : high) = middle;
  }
  return (low + high) / 2;
}

double Spread::drawn_share_below(double value) const {
  if (deviation_ <= 0) return share_below(draws_, value);
  double sum = 0;
  for (const double draw : draws_) sum += normal_share_below((value - draw) / deviation_);
  return sum / static_cast<double>(draws_.size());
}

double Spread::quantile(double z) const {
  const auto read = [&](double value) { return least_ ? std::max(*least_, value) : value; };
  if (is_drawn()) return read(drawn_quantile(normal_share_below(z)));
  const double deviation = std::sqrt(cumulants_[1]);
  if (deviation <= 0) return read(predicted_ + cumulants_[0]);
  const double skewness = cumulants_[2] / (cumulants_[1] * deviation);
  const double excess = cumulants_[3] / (cumulants_[1] * cumulants_[1]);
  const double bent = z + (z * z - 1) * skewness / 6 + (z * z * z - 3 * z) * excess / 24 -
                      (2 * z * z * z - 5 * z) * skewness * skewness / 36;
  return read(predicted_ + cumulants_[0] + deviation * bent);
}

// The predicted value is a middle of every source, not of their sum: what is predicted stays inside
// its own interval.
Interval Spread::interval() const {
  return {std::min(predicted_, quantile(-z_90)), predicted_, std::max(predicted_, quantile(z_90))};
}

double Spread::chance_below(double value) const {
  if (is_drawn()) return drawn_share_below(value);
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

}  // namespace tub::planning
