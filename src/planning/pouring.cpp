#include "planning/pouring.h"

#include <algorithm>
#include <cmath>

#include "base/error.h"
#include "chemistry/gas.h"
#include "planning/roots.h"

namespace tub {
namespace {

Water moved(const Water& water, const Totals& direction, double amount) {
  Water result = water;
  result.totals += direction * amount;
  return result;
}

/// The pH after moving; nothing where no such water can exist (a total below zero).
std::optional<double> ph_moved(const Water& water, const Totals& direction, double amount,
                               const Bench& bench) {
  try {
    return bench.ph(moved(water, direction, amount));
  } catch (const Error&) {
    return std::nullopt;
  }
}

/// A step along the direction that moves pH by about a tenth.
double step_for_a_tenth(const Water& water, const Totals& direction, double ph,
                        const Bench& bench) {
  const double small = 1e-7 / std::max(std::abs(direction[Component::alkalinity]),
                                       std::abs(direction[Component::carbonate]));
  const double slope = (bench.ph(moved(water, direction, small)) - ph) / small;
  return std::abs(slope) > 0 ? 0.1 / std::abs(slope) : small;
}

/// Searched both ways: an edge may ask for less than was poured.
std::optional<double> amount_either_way(const Water& water, const Totals& direction, double ph,
                                        const Bench& bench) {
  const double here = bench.ph(water);
  const double step = step_for_a_tenth(water, direction, here, bench);
  double last = 0;
  const double more = bench.ph(moved(water, direction, step)) > here ? 1 : -1;
  const double sign = ph > here ? more : -more;
  for (int i = 1; i <= 40; ++i) {
    const double next = sign * step * i;
    const auto there = ph_moved(water, direction, next, bench);
    if (!there) return std::nullopt;
    if ((*there - ph) * (here - ph) <= 0) {
      const auto f = [&](double x) { return bench.ph(moved(water, direction, x)) - ph; };
      return root_between(f, last, next, ph_tolerance);
    }
    last = next;
  }
  return std::nullopt;
}

}  // namespace

std::optional<double> amount_for_ph(const Water& water, const Totals& direction, double ph,
                                    const Range& search, const Bench& bench) {
  const auto f = [&](double x) { return bench.ph(moved(water, direction, x)) - ph; };
  return root_from_zero(f, search.low, search.high, ph_tolerance);
}

double largest_pour(const Water& water, const Supply& supply, double wanted, const Range& window,
                    const Bench& bench) {
  const double before = bench.ph(water);
  const Range allowed{std::min(window.low, before), std::max(window.high, before)};
  const auto ph_after = [&](double mg_l) { return bench.ph(supply.add_to(water, mg_l)); };
  const double after = ph_after(wanted);
  if (allowed.holds(after)) return wanted;
  const double edge = after < allowed.low ? allowed.low : allowed.high;
  if (edge == before) return 0;
  const auto f = [&](double mg_l) { return ph_after(mg_l) - edge; };
  return root_between(f, 0.0, wanted, 1e-6).value_or(0);
}

Interval jets_hours(const Water& water, double to_log10_pco2_atm, const Bench& bench) {
  if (bench.state(water).log10_pco2_atm <= to_log10_pco2_atm) return {0, 0, 0};
  const SpeciesTable& species = bench.species();
  return hours_to_release(water, to_log10_pco2_atm, species.gas_exchange().jets_on, species);
}

Limits carried_back(Reading reading, const Limits& band, const Water& at_step, const Water& final,
                    const Totals& direction, const Bench& bench) {
  Limits carried;
  if (reading != Reading::ph) {
    const double taken_later = bench.reading(reading, at_step) - bench.reading(reading, final);
    if (band.low) carried.low = *band.low + taken_later;
    if (band.high) carried.high = *band.high + taken_later;
    return carried;
  }
  const auto edge = [&](double ph) -> std::optional<double> {
    const auto amount = amount_either_way(final, direction, ph, bench);
    return amount ? ph_moved(at_step, direction, *amount, bench) : std::nullopt;
  };
  if (band.low) carried.low = edge(*band.low);
  if (band.high) carried.high = edge(*band.high);
  return carried;
}

}  // namespace tub
