#include "planning/goals/objective.h"

#include <algorithm>
#include <cmath>

#include "planning/pours/pouring.h"

namespace tub::planning {
namespace {

constexpr double same_distance = 0.01;
constexpr double same_hours = 0.1;
constexpr double same_grams = 0.5;
/// A value on its band's edge is inside, whatever its last digits say.

bool counts_first(Reading reading) {
  return reading == Reading::ph || reading == Reading::total_alkalinity ||
         reading == Reading::free_chlorine || reading == Reading::total_bromine;
}

int steps_for(const DoseMove& dose) {
  if (dose.mg_l <= 0) return 0;
  const double limit = dose.supply->product().single_addition_mg_l;
  if (limit <= 0) return 1;
  return static_cast<int>(std::ceil(dose.mg_l / (2 * limit) - on_the_edge));
}

/// Additions, hours and grams of the moves, from the start on.
struct Effort {
  const Situation& situation;
  Water water;
  int additions = 0;
  double hours = 0;
  double grams = 0;

  void pour(const DoseMove& dose, int times) {
    const int steps = steps_for(dose) * times;
    additions += steps;
    hours += 2 * steps * situation.assumptions.wait_minutes.value / 60;
    grams += dose.mg_l * times * situation.request.tub.volume_l * 1e-3;
  }

  void release(const Water& from, const ReleaseMove& move, int times) {
    hours += jets_hours(from, move.to_log10_pco2_atm, situation.bench).value * times;
  }

  void operator()(const HeatMove&) {}
  void operator()(const DoseMove& dose) { pour(dose, 1); }
  void operator()(const ReleaseMove& move) { release(water, move, 1); }
  void operator()(const RoundsMove& rounds) {
    pour(rounds.dose, rounds.times);
    release(situation.bench.after(water, rounds.dose), rounds.release, rounds.times);
  }
  void operator()(const FloaterMove&) { ++additions; }
};

/// Too much sanitizer falls by itself: no plan is better for having less of it.
bool is_left_to_time(const Situation& situation, Reading reading) {
  const Goal* goal = situation.goal(reading);
  return reading == situation.sanitizer.reading && goal != nullptr && goal->band.high &&
         value_of(reading, situation.start.state) > *goal->band.high;
}

void judge(const Situation& situation, const WaterState& final, Score& score) {
  for (const Reading reading : outside_bands(situation.goals, final)) {
    if (is_left_to_time(situation, reading)) continue;
    ++(counts_first(reading) ? score.unmet : score.unmet_hardness);
    score.distance +=
        distance_outside(reading, situation.goal(reading)->band, value_of(reading, final));
  }
  for (const auto& [reading, range] : situation.gate.readings) {
    if (is_left_to_time(situation, reading)) continue;
    const Limits limits{range.low, range.high};
    if (is_outside(reading, limits, value_of(reading, final))) ++score.unsafe;
  }
  const Assumed& soft = situation.assumptions.saturation_index;
  const double index = std::max(final.saturation_index, -10.0);
  score.off_balance = std::max({0.0, soft.low - index, index - soft.high});
}

}  // namespace

int additions_of(const Draft& draft) {
  int additions = 0;
  for (const Move& move : draft) {
    if (const auto* dose = std::get_if<DoseMove>(&move)) additions += steps_for(*dose);
    if (const auto* rounds = std::get_if<RoundsMove>(&move)) {
      additions += rounds->times * steps_for(rounds->dose);
    }
  }
  return additions;
}

Score score(const Situation& situation, const Draft& draft) {
  Effort effort{situation, situation.start.water};
  for (const Move& move : draft) {
    std::visit([&](const auto& what) { effort(what); }, move);
    effort.water = situation.bench.after(effort.water, move);
  }
  Score result;
  result.additions = effort.additions;
  result.hours = effort.hours;
  result.grams = effort.grams;
  judge(situation, situation.bench.state(effort.water), result);
  return result;
}

bool is_better(const Score& a, const Score& b) {
  if (a.unsafe != b.unsafe) return a.unsafe < b.unsafe;
  if (a.unmet != b.unmet) return a.unmet < b.unmet;
  if (a.unmet_hardness != b.unmet_hardness) return a.unmet_hardness < b.unmet_hardness;
  if (std::abs(a.distance - b.distance) > same_distance) return a.distance < b.distance;
  if (a.doubtful != b.doubtful) return a.doubtful < b.doubtful;
  if (a.additions != b.additions) return a.additions < b.additions;
  if (std::abs(a.hours - b.hours) > same_hours) return a.hours < b.hours;
  if (std::abs(a.grams - b.grams) > same_grams) return a.grams < b.grams;
  return a.off_balance < b.off_balance;
}

}  // namespace tub::planning
