#include "planning/water/active_sanitizer.h"

#include <algorithm>
#include <cmath>
#include <limits>

#include "chemistry/derivatives.h"

namespace tub::planning {
namespace {

/// An outcome in which a source takes all of it counts as a thousandth: a factor of 0 has no
/// logarithm.
constexpr double least_factor = 1e-3;

/// Logarithms of amounts and of odds have no bounds.
constexpr Range endless = {-std::numeric_limits<double>::infinity(),
                           std::numeric_limits<double>::infinity()};

using Number = std::function<double(const WaterState&)>;

/// The final water: its state's ranges, and how far the constants alone may put it off.
struct Judged {
  const Outcomes& outcomes;
  WaterState by_constants;  ///< 90 % half-widths
};

Interval mapped(const Interval& interval, double (*map)(double)) {
  return {map(interval.low), map(interval.value), map(interval.high)};
}

/// An amount, each error a factor. by_constants: 90 % half-width, in its own unit.
std::optional<Interval> amount(const Judged& water, const Number& number, double by_constants) {
  const double at = number(water.outcomes.at);
  if (at <= 0) return Interval{};
  Spread spread = spread_of(water.outcomes, endless, [&](const WaterState& state) {
    return std::log(std::max(number(state), least_factor * at));
  });
  spread.add_normal(by_constants / at);
  const Interval interval = mapped(spread.interval(), [](double log) { return std::exp(log); });
  return Interval{std::min(at, interval.low), at, std::max(at, interval.high)};
}

/// A share, each error on its odds.
Interval share(const Judged& water, const Number& number, double by_constants) {
  const double at = number(water.outcomes.at);
  Spread spread = spread_of(water.outcomes, endless, [&](const WaterState& state) {
    const double here = number(state);
    return std::isfinite(here) ? std::log(here / (1 - here)) : std::log(at / (1 - at));
  });
  spread.add_normal(by_constants / (at * (1 - at)));
  const Interval interval =
      mapped(spread.interval(), [](double log_odds) { return 1 / (1 + std::exp(-log_odds)); });
  return Interval{std::min(at, interval.low), at, std::max(at, interval.high)};
}

ActiveSanitizer active_chlorine(const Judged& water) {
  const auto of = [&](double WaterState::*member) {
    return amount(
        water, [=](const WaterState& state) { return state.*member; }, water.by_constants.*member);
  };
  ActiveSanitizer active;
  active.of = Reading::free_chlorine;
  active.hocl_mg_l = of(&WaterState::hocl_mg_l);
  active.ocl_mg_l = of(&WaterState::ocl_mg_l);
  active.bound_chlorine_mg_l = of(&WaterState::bound_chlorine_mg_l);
  active.share = share(
      water, [](const WaterState& state) { return state.hocl_mg_l / state.free_chlorine_mg_l; },
      water.by_constants.hocl_mg_l / water.outcomes.at.free_chlorine_mg_l);
  return active;
}

ActiveSanitizer active_bromine(const Judged& water) {
  ActiveSanitizer active;
  active.of = Reading::total_bromine;
  active.hobr_mg_l = amount(
      water, [](const WaterState& state) { return state.hobr_fraction * state.total_bromine_mg_l; },
      water.by_constants.hobr_fraction * water.outcomes.at.total_bromine_mg_l);
  active.share = share(
      water, [](const WaterState& state) { return state.hobr_fraction; },
      water.by_constants.hobr_fraction);
  return active;
}

}  // namespace

std::optional<ActiveSanitizer> active_sanitizer(const Situation& situation, const Water& final,
                                                const Outcomes& outcomes) {
  const Reading of = situation.sanitizer.reading;
  if (value_of(of, outcomes.at) <= 0) return std::nullopt;
  const SpeciesTable& species = situation.bench.species();
  const Judged water{outcomes, constant_spread(final, situation.bench.species_of(final), species)};
  return of == Reading::total_bromine ? active_bromine(water) : active_chlorine(water);
}

}  // namespace tub::planning
