// Derivatives against central differences.
#include "chemistry/derivatives.h"

#include <catch2/catch.hpp>
#include <cmath>

#include "random_water.h"
#include "reference_table.h"

using namespace tub;
using namespace tub::chemistry;
using reference::species;

namespace {

WaterState moved(Water water, Component total, double by) {
  water.totals[total] += by;
  return read(water, species());
}

// (f(t + h) - f(t - h)) / 2h, and with half the step, extrapolated (Richardson).
template <class Member>
double difference(const Water& water, Component total, double h, Member member) {
  const auto slope = [&](double step) {
    return (moved(water, total, step).*member - moved(water, total, -step).*member) / (2 * step);
  };
  return (4 * slope(h / 2) - slope(h)) / 3;
}

// Some of everything, so that every derivative exists on both sides.
Water with_everything(Water water, Dice& dice) {
  for (std::size_t i = 1; i < component_count; ++i)
    if (water.totals.at(i) < 1e-5) water.totals.at(i) = dice.between(1e-5, 5e-4);
  return water;
}

}  // namespace

TEST_CASE("every reading's derivative to every total is that of central differences") {
  Dice dice(99);
  int waters = 0;
  double worst = 0;
  while (waters < 25) {
    const auto drawn = random_water(dice, species());
    if (!drawn) continue;
    ++waters;
    const Water water = with_everything(*drawn, dice);
    const Derivatives derivatives(water, species());
    std::array<WaterState, component_count> slopes;
    for (std::size_t i = 0; i < component_count; ++i)
      slopes[i] = derivatives.by(static_cast<Component>(i));
    const auto check = [&](std::string_view name, auto member) {
      double largest = 0;
      for (const WaterState& slope : slopes) largest = std::max(largest, std::abs(slope.*member));
      for (std::size_t i = 0; i < component_count; ++i) {
        const auto total = static_cast<Component>(i);
        const double h = 2e-3 * std::max(std::abs(water.totals[total]), 1e-6);
        const double error =
            std::abs(slopes[i].*member - difference(water, total, h, member)) / largest;
        worst = std::max(worst, error);
        INFO(name << " by " << component_names[i] << ", water " << waters);
        CHECK(error < 1e-6);
      }
    };
    for (const auto& key : reading_keys)
      if (key.member != &Readings::temperature_c) check(key.name, key.member);
    for (const auto& key : derived_keys) check(key.name, key.member);
  }
  INFO("worst " << worst);
}
