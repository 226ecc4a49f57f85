// Standard normals that stand for chance: the same on every run, and as even as they can be.
#pragma once

#include <array>
#include <cstddef>
#include <span>
#include <vector>

#include "base/modules.h"

namespace tub::planning {

/// Odd, so that one draw is the middle of every source.
inline constexpr std::size_t draw_count = 257;
/// The outermost of that many even quantiles of a normal, in 90 % half-widths.
inline constexpr double outermost_draw = 1.7547;

/// A Latin hypercube of normals, one dimension for each source of error: in each, every one of the
/// even quantiles occurs once, in an order of its own. It is turned so that its first dimension
/// lies along a direction: what changes in a line along that direction has its quantiles exactly.
///
/// Source:  McKay, Beckman & Conover 1979, Technometrics 21, 239 (the hypercube); the turning is a
///          Householder reflection
/// Checked: tests/planning/draws_test.cpp
class Draws {
 public:
  /// direction: how much each source matters, of any length; one dimension for each
  explicit Draws(std::vector<double> direction);

  /// The normals of a draw, by source. REQUIRES: index below draw_count, as many as dimensions
  void normals(std::size_t index, std::span<double> by_source) const;

 private:
  std::vector<double> mirror_;  ///< unit vector, or zeros where nothing has to be turned
};

/// The value that a share of the draws stays below, between draws along a line.
/// REQUIRES: sorted, not empty
double quantile_of(std::span<const double> sorted, double share);
/// The share of draws below a value. REQUIRES: as above
double share_below(std::span<const double> sorted, double value);

}  // namespace tub::planning
