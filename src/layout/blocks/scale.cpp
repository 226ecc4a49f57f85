// Maps values to places, piece by piece.
#include "layout/blocks/scale.h"

#include <algorithm>

namespace tub::layout {
namespace {

/// Linear from (a, x) to (b, y), standing still outside; x where a and b are the same.
double between(double value, double a, double b, double x, double y) {
  if (b <= a) return x;
  return x + (y - x) * std::clamp((value - a) / (b - a), 0.0, 1.0);
}

}  // namespace

double Scale::at(double value) const {
  const ChannelReading& r = reading_;
  const ScalePlaces& p = places_;
  if (value < r.low_at) {
    if (r.plot_low >= r.low_at) return p.left;
    return between(value, r.plot_low, r.low_at, p.left, p.low_side);
  }
  if (value > r.high_at) {
    if (r.plot_high <= r.high_at) return p.right;
    return between(value, r.high_at, r.plot_high, p.high_side, p.right);
  }
  return between(value, r.low_at, r.high_at, p.low, p.high);
}

}  // namespace tub::layout
