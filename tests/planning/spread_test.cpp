#include "planning/water/spread.h"

#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>
#include <random>
#include <vector>

namespace tub::planning {
namespace {

/// Shares of draws below the low end and above the high end of the interval.
std::pair<double, double> shares_outside(const std::vector<ErrorEffect>& effects) {
  constexpr int draws = 200000;
  Spread spread(10);
  for (const ErrorEffect& effect : effects) spread.add(effect);
  const Interval interval = spread.interval();
  std::mt19937_64 engine(20260504);
  std::normal_distribution<double> normal;
  int below = 0;
  int above = 0;
  for (int i = 0; i < draws; ++i) {
    double value = 10;
    for (const ErrorEffect& effect : effects) {
      const double u = normal(engine) / z_90;
      if (effect.is_one_sided) {
        const double b = 2 * effect.at_high - 4 * effect.at_low;
        value += (effect.at_high - b) * std::abs(u) + b * u * u;
      } else {
        const double a = (effect.at_high - effect.at_low) / 2;
        const double b = (effect.at_high + effect.at_low) / 2;
        value += a * u + b * u * u;
      }
    }
    below += value < interval.low ? 1 : 0;
    above += value > interval.high ? 1 : 0;
  }
  return {static_cast<double>(below) / draws, static_cast<double>(above) / draws};
}

}  // namespace

TEST_CASE("a single normal error keeps its own half-width") {
  Spread spread(100);
  spread.add_normal(8);
  // Source: tables of the normal distribution; the middle 90 % is 1.645 deviations to each side.
  CHECK(spread.interval().low == Approx(92));
  CHECK(spread.interval().high == Approx(108));
  CHECK(spread.chance_below(92) == Approx(0.05).epsilon(1e-6));
  CHECK(spread.chance_below(100) == Approx(0.5).epsilon(1e-6));
}

TEST_CASE("independent errors add as squares") {
  Spread spread(0);
  spread.add_normal(3);
  spread.add_normal(4);
  CHECK(spread.interval().high == Approx(5));
}

TEST_CASE("nine draws in ten lie inside the interval, one in twenty on each side") {
  const std::vector<std::vector<ErrorEffect>> cases = {
      {{-1, 1, false}, {-0.5, 0.6, false}},                    // a volume: more where it is smaller
      {{-1, 1, false}, {-0.6, -1.2, true}},                    // hypochlorite that may be stale
      {{-0.3, 0.3, false}, {-0.5, -1, true}},                  // mostly stale
      {{-1, 1.4, false}, {-1, 1, false}, {-0.2, 0.3, false}},  // a bent response to pH
  };
  for (const auto& effects : cases) {
    const auto [below, above] = shares_outside(effects);
    CAPTURE(below, above);
    CHECK(below + above == Approx(0.10).margin(0.005));
    CHECK(below == Approx(0.05).margin(0.008));
    CHECK(above == Approx(0.05).margin(0.008));
  }
}

TEST_CASE("nothing uncertain has no interval") {
  const Spread spread(7.5);
  CHECK(spread.interval() == Interval{7.5, 7.5, 7.5});
  CHECK(spread.chance_below(7.4) == 0);
  CHECK(spread.chance_below(7.6) == 1);
}

}  // namespace tub::planning
