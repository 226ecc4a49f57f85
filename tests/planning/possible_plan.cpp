#include "possible_plan.h"

#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>

namespace tub::planning {
namespace {

/// pH that no tub has: a hundredth of a mole of strong acid or base in each litre has pH 2 or 12,
/// and no step may bring so much.
constexpr Range possible_ph = {2, 12};
/// The digits that a range is not known to.
constexpr double digits = 1e-9;

bool is_possible(Reading reading, double value) {
  return reading == Reading::ph ? possible_ph.holds(value) : value >= 0;
}

void check_interval(Reading reading, const Interval& interval) {
  CAPTURE(name_of(reading), interval.low, interval.value, interval.high);
  CHECK(interval.low <= interval.value);
  CHECK(interval.value <= interval.high);
  CHECK(is_possible(reading, interval.low));
  CHECK(is_possible(reading, interval.high));
}

void check_condition(const Condition& condition) {
  CAPTURE(name_of(condition.reading), condition.edge);
  CHECK(is_possible(condition.reading, condition.edge));
}

void check_accept(const Step& step) {
  for (const auto& [reading, limits] : step.accept) {
    CAPTURE(step.number, kind_of(step), name_of(reading), limits.low.value_or(-1),
            limits.high.value_or(-1));
    if (limits.low && limits.high) CHECK(*limits.low <= *limits.high);
    if (limits.low) CHECK(is_possible(reading, *limits.low));
    if (limits.high) CHECK(is_possible(reading, *limits.high));
  }
}

void check_addition(const Addition& addition) {
  if (addition.overshoot_chance) {
    CAPTURE(addition.product, *addition.overshoot_chance);
    CHECK(*addition.overshoot_chance >= 0);
    CHECK(*addition.overshoot_chance <= 0.5);
  }
  for (const Portion& portion : addition.portions) {
    if (portion.only_if) check_condition(*portion.only_if);
    for (const auto& [reading, expect] : portion.expect) check_interval(reading, expect);
  }
}

void check_steps(const std::vector<Step>& steps) {
  for (const Step& step : steps) {
    check_accept(step);
    if (const auto* addition = std::get_if<Addition>(&step.what)) check_addition(*addition);
    if (const auto* repeat = std::get_if<Repeat>(&step.what)) {
      check_condition(repeat->until);
      check_steps(repeat->steps);
    }
  }
}

/// What a derived number of a water can be; the saturation index has a law of its own.
bool is_possible(const std::string& key, double value) {
  const bool has_a_sign = key == "saturation_index" || key == "log10_pco2_atm";
  if (has_a_sign) return std::abs(value) < 20;
  // Below none is acid water: as much strong acid as pH 2 has, 10 mmol/L, is -500 mg/L.
  const bool is_alkalinity = key.ends_with("alkalinity_mg_l");
  if (is_alkalinity) return value >= -500;
  if (key == "hobr_fraction" && value > 1) return false;
  return key == "ph" ? possible_ph.holds(value) : value >= 0;
}

/// Of the saturation index: the ends of the other ranges are from other draws.
constexpr double between_draws = 1;

/// At most so far above the last water's index as pH, hardness and carbonate alkalinity at their
/// highest take it: the index rises with the logarithms of calcium and carbonate, and carbonate
/// with alkalinity and with pH, by no more than two for one (equation 20 of docs/chemistry.md, in
/// its logarithms).
void check_saturation_index(const Plan& plan) {
  const auto range = plan.final_range.find("saturation_index");
  if (range == plan.final_range.end()) return;
  const auto by = [&](const char* key, double at) {
    const double high = plan.final_range.at(key).high;
    return at > 0 && high > 0 ? std::max(0.0, std::log10(high / at)) : 20.0;
  };
  const double most =
      plan.final.saturation_index + 2 * (plan.final_range.at("ph").high - plan.final.ph) +
      by("calcium_hardness_mg_l", plan.final.calcium_hardness_mg_l) +
      by("carbonate_alkalinity_mg_l", plan.final.carbonate_alkalinity_mg_l) + between_draws;
  CAPTURE(plan.final.saturation_index, range->second.low, range->second.high, most);
  CHECK(range->second.high <= most);
}

void check_final_range(const Plan& plan) {
  // Water with less than no alkalinity holds strong acid. Its pH is below 5.3; that the lowest
  // twentieth of draws of pH begins there as well is not asked for.
  if (plan.final_range.at("total_alkalinity_mg_l").low < -digits) {
    CHECK(plan.final_range.at("ph").low < 6.5);
  }
  for (const auto& [key, range] : plan.final_range) {
    CAPTURE(key, range.low, range.high);
    CHECK(range.low <= range.high);
    CHECK(is_possible(key, range.low + digits));
    CHECK(is_possible(key, range.high));
  }
  check_saturation_index(plan);
}

void check_active(const ActiveSanitizer& active) {
  const auto check = [](const Interval& interval, double most) {
    CAPTURE(interval.low, interval.value, interval.high);
    CHECK(interval.low >= 0);
    CHECK(interval.low <= interval.value);
    CHECK(interval.value <= interval.high);
    CHECK(interval.high <= most);
  };
  check(active.share, 1);
  for (const auto& one :
       {active.hocl_mg_l, active.ocl_mg_l, active.bound_chlorine_mg_l, active.hobr_mg_l}) {
    if (one) check(*one, 1000);
  }
}

}  // namespace

void check_possible(const Plan& plan) {
  check_steps(plan.done);
  check_steps(plan.steps);
  check_final_range(plan);
  if (plan.active_sanitizer) check_active(*plan.active_sanitizer);
  for (const FoundReading& found : plan.found) {
    if (found.expected) check_interval(found.reading, *found.expected);
  }
}

}  // namespace tub::planning
