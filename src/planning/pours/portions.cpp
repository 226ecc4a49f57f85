#include "planning/pours/portions.h"

#include <algorithm>

namespace tub::planning {
namespace {

/// The largest size from `low` (taken to be too much at `high`) whose overshoot keeps the bound.
double largest_within(double low, double high, const PourRules& rules) {
  if (rules.overshoot(low) > rules.bound) return low;
  const double enough = (high - low) / 32;  // finer than any pour is rounded
  while (high - low > enough) {
    const double middle = (low + high) / 2;
    (rules.overshoot(middle) > rules.bound ? high : low) = middle;
  }
  return low;
}

}  // namespace

double first_pour(double amount, const PourRules& rules) {
  const double least =
      std::min(rules.limit, std::max(rules.least_share * amount, amount - rules.limit));
  const double most = std::min(rules.most_share * amount, rules.limit);
  if (most <= least || rules.overshoot(most) <= rules.bound) return std::max(most, least);
  return largest_within(least, most, rules);
}

Split split(double amount, const PourRules& rules, const Measuring& measuring) {
  const double whole = std::min(amount, rules.total_limit);
  double left = rules.total_limit;
  const auto nearest_within = [&](double size) {
    const double most = std::min(rules.limit, left);
    const Measuring::Amount nearest = measuring.nearest(size);
    return nearest.size > most ? measuring.down(most) : nearest;
  };
  Split result;
  std::vector<Measuring::Amount>& pours = result.pours;
  const bool is_rest = rules.most_share >= 1 && rules.overshoot(whole) <= rules.bound;
  if ((whole < 3 * measuring.smallest() || is_rest) && whole <= rules.limit) {
    pours.push_back(nearest_within(whole));
  } else {
    result.first = first_pour(whole, rules);
    pours.push_back(measuring.down(result.first));
    left -= pours.front().size;
    pours.push_back(nearest_within(whole - pours.front().size));
  }
  std::erase_if(pours, [](const Measuring::Amount& pour) { return pour.size <= 0; });
  return result;
}

}  // namespace tub::planning
