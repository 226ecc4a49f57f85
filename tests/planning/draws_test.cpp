#include "planning/water/draws.h"

#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>
#include <numeric>

#include "planning/water/spread.h"

namespace tub::planning {
namespace {

/// Values that are a line in every source: exactly normal, of deviation 1.
std::vector<double> along(std::vector<double> weights) {
  const double length =
      std::sqrt(std::inner_product(weights.begin(), weights.end(), weights.begin(), 0.0));
  const Draws draws(weights);
  std::vector<double> values;
  std::vector<double> normals(weights.size());
  for (std::size_t i = 0; i < draw_count; ++i) {
    draws.normals(i, normals);
    values.push_back(std::inner_product(normals.begin(), normals.end(), weights.begin(), 0.0) /
                     length);
  }
  std::sort(values.begin(), values.end());
  return values;
}

}  // namespace

TEST_CASE("draws along their direction have a normal's own quantiles") {
  for (const std::vector<double>& weights :
       {std::vector<double>{1}, {0, 1}, {3, -4, 12}, {0.2, 0.2, 0.2, 1, 0, 2, 0.1, 0.1}}) {
    const std::vector<double> values = along(weights);
    // Source: tables of the normal distribution.
    CHECK(quantile_of(values, 0.05) == Approx(-1.6449).margin(0.003));
    CHECK(quantile_of(values, 0.5) == Approx(0).margin(1e-9));
    CHECK(quantile_of(values, 0.975) == Approx(1.96).margin(0.006));
    CHECK(share_below(values, 1) == Approx(0.8413).margin(0.002));
    CHECK(values.back() / z_90 == Approx(outermost_draw).margin(1e-3));
  }
}

TEST_CASE("no two sources of error are drawn alike") {
  constexpr std::size_t sources = 30;
  const Draws draws(std::vector<double>(sources, 0.0));
  std::vector<std::vector<double>> drawn(draw_count, std::vector<double>(sources));
  for (std::size_t i = 0; i < draw_count; ++i) draws.normals(i, drawn[i]);
  for (std::size_t a = 0; a < sources; ++a) {
    for (std::size_t b = 0; b < a; ++b) {
      double together = 0;
      for (const auto& draw : drawn) together += draw[a] * draw[b] / draw_count;
      // Three and a half deviations of what chance leaves between so many.
      CHECK(std::abs(together) < 3.5 / std::sqrt(draw_count / 2.0));
    }
  }
}

TEST_CASE("between draws a quantile lies on the line between them") {
  const std::vector<double> values = {1, 2, 4};
  CHECK(quantile_of(values, 0.5) == Approx(2));
  CHECK(quantile_of(values, 2.0 / 3) == Approx(3));
  CHECK(quantile_of(values, 0) == 1);
  CHECK(share_below(values, 3) == Approx(2.0 / 3));
  CHECK(share_below(values, 0.5) == 0);
  CHECK(share_below(values, 9) == 1);
}

}  // namespace tub::planning
