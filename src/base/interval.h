// Two ends, with or without a value between them.
#pragma once

#include "base/modules.h"

namespace tub {

/// From the lowest to the highest value, both included.
struct Range {
  double low = 0;
  double high = 0;
  bool holds(double value) const { return value >= low && value <= high; }
  friend bool operator==(const Range&, const Range&) = default;
};

/// A value between the ends of its interval (90 % where it is a prediction).
struct Interval {
  double low = 0;
  double value = 0;
  double high = 0;
  friend bool operator==(const Interval&, const Interval&) = default;
};

}  // namespace tub
