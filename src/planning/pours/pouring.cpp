#include "planning/pours/pouring.h"

#include <algorithm>
#include <cmath>

#include "base/error.h"
#include "chemistry/alkalinity_lack.h"
#include "chemistry/gas.h"
#include "planning/water/roots.h"

namespace tub::planning {
namespace {

Water moved(const Water& water, const Totals& direction, double amount) {
  Water result = water;
  result.totals += direction * amount;
  return result;
}

/// Alkalinity to which everything is solved, mol/kg: pH then is right to 1e-9 where water holds
/// least.
constexpr double lack_tolerance = 1e-14;
/// The same for the most of a pour, which is rounded down.
constexpr double pour_tolerance = 1e-12;
/// Farther than any dose, in units of a direction (mg/L of a product, mol/kg of carbon dioxide).
constexpr double most_moved = 1e4;

/// The pH after moving; nothing where no such water can exist (a total below zero).
std::optional<double> ph_moved(const Water& water, const Totals& direction, double amount,
                               const Bench& bench) {
  try {
    return bench.ph(moved(water, direction, amount));
  } catch (const Error&) {
    return std::nullopt;
  }
}

/// What a water lacks for a pH, moved along a direction.
class LackAlong {
 public:
  LackAlong(const Water& water, const Totals& direction, double ph, const Bench& bench)
      : water_(water), direction_(direction), lack_(ph, bench.species()) {}
  double operator()(double amount) const { return lack_(moved(water_, direction_, amount)); }

 private:
  const Water& water_;
  const Totals& direction_;
  mutable AlkalinityLack lack_;
};

/// How far along a direction no total falls below zero.
Range possible(const Water& water, const Totals& direction) {
  constexpr double short_of_nothing = 0.999;
  Range bounds{-most_moved, most_moved};
  for (std::size_t i = 0; i < component_count; ++i) {
    if (static_cast<Component>(i) == Component::alkalinity || direction.at(i) == 0) continue;
    const double end = -short_of_nothing * water.totals.at(i) / direction.at(i);
    if (direction.at(i) > 0) bounds.low = std::max(bounds.low, end);
    if (direction.at(i) < 0) bounds.high = std::min(bounds.high, end);
  }
  return bounds;
}

/// Searched both ways: an edge may ask for less than was poured. Nothing where no such water can
/// exist.
std::optional<double> amount_either_way(const Water& water, const Totals& direction, double ph,
                                        const Bench& bench) {
  const LackAlong lack(water, direction, ph, bench);
  const double small = 1e-7 / std::max(std::abs(direction[Component::alkalinity]),
                                       std::abs(direction[Component::carbonate]));
  return secant_root(lack, small, possible(water, direction), lack_tolerance);
}

}  // namespace

std::optional<double> amount_for_ph(const Water& water, const Totals& direction, double ph,
                                    const Range& search, const Bench& bench) {
  return near_line_root(LackAlong(water, direction, ph, bench), search.low, search.high,
                        lack_tolerance);
}

double largest_pour(const Water& water, const Supply& supply, double wanted, const Range& window,
                    const Bench& bench) {
  // A neutral salt: pH moves only as chlorine in the water becomes bromine, a weaker acid.
  if (supply.product().can(Purpose::bromide_bank)) return wanted;
  const double here = bench.ph(water);
  const Range allowed{std::min(window.low, here), std::max(window.high, here)};
  const double after = bench.ph(supply.add_to(water, wanted));
  if (allowed.holds(after)) return wanted;
  const double edge = after < allowed.low ? allowed.low : allowed.high;
  if (edge == here) return 0;
  AlkalinityLack lack(edge, bench.species());
  const auto f = [&](double mg_l) { return lack(supply.add_to(water, mg_l)); };
  return root_between(f, 0.0, wanted, pour_tolerance).value_or(0);
}

Interval jets_hours(const Water& water, double to_log10_pco2_atm, const Bench& bench) {
  if (bench.log10_pco2(water) <= to_log10_pco2_atm) return {0, 0, 0};
  const SpeciesTable& species = bench.species();
  return hours_to_release(water, to_log10_pco2_atm, species.gas_exchange().jets_on, species);
}

Limits carried_back(Reading reading, const Limits& band, const Course& course,
                    const Totals& direction, const Bench& bench) {
  Limits carried;
  if (reading != Reading::ph) {
    const double taken_later =
        bench.reading(reading, course.at_step) - bench.reading(reading, course.final);
    if (band.low) carried.low = *band.low + taken_later;
    if (band.high) carried.high = *band.high + taken_later;
    // A test shows no less than none: whatever it shows is enough, or too much.
    if (carried.low && *carried.low <= 0) carried.low.reset();
    if (carried.high && *carried.high < 0) return {};
    return carried;
  }
  const auto edge = [&](double ph) -> std::optional<double> {
    const auto amount = amount_either_way(course.final, direction, ph, bench);
    return amount ? ph_moved(course.at_step, direction, *amount, bench) : std::nullopt;
  };
  if (band.low) carried.low = edge(*band.low);
  if (band.high) carried.high = edge(*band.high);
  // Where more takes the reading here the other way, it does not tell how much is in.
  if (carried.low && carried.high && *carried.low > *carried.high) return {};
  return carried;
}

}  // namespace tub::planning
