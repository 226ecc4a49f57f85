// One amount in one or two pours: the first is less than the whole.
#pragma once

#include <functional>
#include <vector>

#include "planning/pours/measuring.h"

namespace tub::planning {

/// What bounds the pours of one amount. Sizes are as in Measuring.
struct PourRules {
  double most_share = 0.75;      ///< of the amount, in the first pour; 1: the rest of a step
  double least_share = 1.0 / 3;  ///< of the amount, in the first pour
  double limit = 0;              ///< most in one pour; infinite: none
  double total_limit = 0;        ///< most in all pours together; infinite: none
  double bound = 0.05;           ///< most chance that the first pour passes the far edge
  /// The chance that the reading after a pour of that size passes the far edge.
  std::function<double(double)> overshoot;
};

/// The first pour before it is rounded: three quarters, or the limit, or the largest within the
/// bound, whichever is least; but at least a third, and what the second pour could not carry.
double first_pour(double amount, const PourRules& rules);

/// An amount in pours, and what the first was before it was rounded; 0 if there is one pour only.
struct Split {
  std::vector<Measuring::Amount> pours;
  double first = 0;
};

/// One pour if the amount is under three of the smallest measure, or if it is the rest of a step
/// and keeps the bound; else two: the first rounded down, the second to the nearest. No pours if
/// the amount rounds to nothing.
Split split(double amount, const PourRules& rules, const Measuring& measuring);

}  // namespace tub::planning
