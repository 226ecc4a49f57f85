// Where a monotonic function of one amount takes a wanted value.
#pragma once

#include <algorithm>
#include <cmath>
#include <optional>

#include "base/interval.h"

namespace tub::planning {

/// The x between low and high where f is 0, to `tolerance` of f; nothing if f has one sign there.
///
/// The regula falsi with the Illinois weight. Source: Dowell & Jarratt 1971, BIT 11, 168
template <class Function>
std::optional<double> root_between(const Function& f, double low, double high, double tolerance) {
  double at_low = f(low);
  double at_high = f(high);
  if (std::abs(at_low) <= tolerance) return low;
  if (std::abs(at_high) <= tolerance) return high;
  if (std::signbit(at_low) == std::signbit(at_high)) return std::nullopt;
  int side = 0;
  for (int i = 0; i < 100; ++i) {
    const double x = (at_low * high - at_high * low) / (at_low - at_high);
    const double at = f(x);
    if (std::abs(at) <= tolerance) return x;
    if (std::signbit(at) == std::signbit(at_high)) {
      high = x;
      at_high = at;
      if (side == -1) at_low /= 2;
      side = -1;
    } else {
      low = x;
      at_low = at;
      if (side == 1) at_high /= 2;
      side = 1;
    }
  }
  return (at_low * high - at_high * low) / (at_low - at_high);
}

/// The x from 0 on, in the direction of `first_step`, where f is 0; nothing if f moves away from 0,
/// or up to `most`.
template <class Function>
std::optional<double> root_from_zero(const Function& f, double first_step, double most,
                                     double tolerance) {
  const double start = f(0);
  if (std::abs(start) <= tolerance) return 0;
  double last = 0;
  double next = std::abs(first_step) < std::abs(most) ? first_step : most;
  for (int i = 0; i < 60; ++i) {
    const double at = f(next);
    if (std::signbit(at) != std::signbit(start)) return root_between(f, last, next, tolerance);
    if (next == most || (i == 0 && std::abs(at) > std::abs(start))) return std::nullopt;
    last = next;
    next = std::abs(2 * next) < std::abs(most) ? 2 * next : most;
  }
  return std::nullopt;
}

/// The same for an f that is nearly a line: the secant method, which then needs few steps, with
/// root_from_zero where it leads astray.
template <class Function>
std::optional<double> near_line_root(const Function& f, double first_step, double most,
                                     double tolerance) {
  const double start = f(0);
  if (std::abs(start) <= tolerance) return 0;
  double last = 0;
  double at_last = start;
  double next = std::abs(first_step) < std::abs(most) ? first_step : most;
  double at = f(next);
  if (std::abs(at) > std::abs(start) && std::signbit(at) == std::signbit(start)) {
    return std::nullopt;
  }
  for (int i = 0; i < 12; ++i) {
    if (std::abs(at) <= tolerance) return next;
    if (next == most && std::signbit(at) == std::signbit(start)) return std::nullopt;
    const double root = next - at * (next - last) / (at - at_last);
    last = next;
    at_last = at;
    next = std::abs(root) < std::abs(most) ? root : most;
    if (!(next / most > 0)) break;
    at = f(next);
  }
  return root_from_zero(f, first_step, most, tolerance);
}

/// Where an f that is nearly a line is 0, whichever side of `first` that is; nothing if the secant
/// method does not settle within `bounds`.
template <class Function>
std::optional<double> secant_root(const Function& f, double first, const Range& bounds,
                                  double tolerance) {
  double last = 0;
  double at_last = f(last);
  if (std::abs(at_last) <= tolerance) return last;
  double next = first;
  for (int i = 0; i < 30; ++i) {
    next = std::clamp(next, bounds.low, bounds.high);
    const double at = f(next);
    if (std::abs(at) <= tolerance) return next;
    if (at == at_last) return std::nullopt;
    const double root = next - at * (next - last) / (at - at_last);
    last = next;
    at_last = at;
    next = root;
  }
  return std::nullopt;
}

}  // namespace tub::planning
