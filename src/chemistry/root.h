// The root of a function of one number between two places where its sign differs.
#pragma once

#include <algorithm>
#include <cmath>

#include "base/modules.h"

namespace tub::chemistry {

/// A place and the function's value there.
struct Sample {
  double x = 0;
  double y = 0;
};

/// By inverse quadratic interpolation where that is safe, else by halving (Chandrupatla 1997,
/// Adv. Eng. Softw. 28, 145).
///
/// tolerance: of x, absolute
/// REQUIRES:  the samples' y differ in sign, or one is 0
template <class Function>
Sample find_root(const Function& function, Sample a, Sample b, double tolerance) {
  Sample c = a;
  double t = 0.5;
  for (int tries = 0; tries < 200; ++tries) {
    const double x = a.x + t * (b.x - a.x);
    const Sample next = {x, function(x)};
    if (std::signbit(next.y) == std::signbit(a.y)) {
      c = a;
    } else {
      c = b;
      b = a;
    }
    a = next;
    const Sample best = std::abs(a.y) < std::abs(b.y) ? a : b;
    const double least = (4e-16 * std::abs(best.x) + 0.5 * tolerance) / std::abs(b.x - a.x);
    if (best.y == 0 || !(least < 0.5)) return best;
    const double xi = (a.x - b.x) / (c.x - b.x);
    const double phi = (a.y - b.y) / (c.y - b.y);
    const bool safe = phi * phi < xi && (1 - phi) * (1 - phi) < 1 - xi;
    t = safe ? a.y / (b.y - a.y) * c.y / (b.y - c.y) +
                   (c.x - a.x) / (b.x - a.x) * a.y / (c.y - a.y) * b.y / (c.y - b.y)
             : 0.5;
    t = std::clamp(t, least, 1 - least);
  }
  return std::abs(a.y) < std::abs(b.y) ? a : b;
}

}  // namespace tub::chemistry
