#include "planning/remedies/refill.h"

#include <algorithm>
#include <cmath>
#include <set>
#include <tuple>

#include "planning/goals/objective.h"
#include "planning/goals/single_reading.h"
#include "planning/pours/divisions.h"
#include "planning/pours/measured_draft.h"
#include "planning/retests/resumption.h"

namespace tub::planning {
namespace {

/// An aim is met within this much of a step that matters.
constexpr double short_of_surely = 0.1;

/// Readings that the first water has outside their bands, and that mixing may bring in. pH is not
/// among them: it is solved after the refill.
std::set<Reading> astray(const Situation& situation) {
  std::set<Reading> readings = outside_bands(situation.goals, situation.start.state);
  readings.erase(Reading::ph);
  readings.erase(situation.sanitizer.reading);
  return readings;
}

/// Metals of a fresh fill that nothing on the shelf holds: only other water has less of them.
int loose_metals(const Situation& situation) {
  const bool is_held = situation.mildest(Purpose::hold_metals) != nullptr;
  if (is_held || situation.request.water_is_in_tub) return 0;
  return static_cast<int>(metals_to_hold(situation).size());
}

Score score_of(const Situation& situation, const std::set<Reading>& to_bring_in) {
  const Draft draft = solved_draft(situation);
  Score result = score(situation, draft);
  result.unmet_hardness += loose_metals(situation);
  for (const Reading reading : to_bring_in) {
    if (is_doubtful(situation, reading, draft)) ++result.doubtful;
  }
  if (situation.refill.fraction > 0) ++result.additions;
  return result;
}

/// More readings are met, or as many more surely; how far the others are out is no reason to drain.
bool meets_more(const Score& a, const Score& b) {
  const auto order = [](const Score& score) {
    return std::tie(score.unsafe, score.unmet, score.unmet_hardness, score.doubtful);
  };
  return order(a) < order(b);
}

bool reaches_all(const Score& score) {
  return score.unsafe == 0 && score.unmet == 0 && score.unmet_hardness == 0 && score.doubtful == 0;
}

}  // namespace

Waters waters_of(const PlanRequest& request, const PlanningData& data,
                 const SpeciesTable& species) {
  Waters waters{first_water(request, data, species), std::nullopt};
  if (request.second_source) {
    waters.second = start_water(*request.second_source, data, species);
  }
  return waters;
}

StartWater refilled(const Waters& waters, const Refill& refill, const PlanningData& data,
                    const SpeciesTable& species) {
  if (refill.fraction <= 0) return waters.first;
  return mixed(waters.first, *waters.second, refill.fraction,
               data.assumptions.refill_half_width.value, species);
}

bool is_doubtful(const Situation& situation, Reading reading, const Draft& draft) {
  const Goal* const goal = situation.goal(reading);
  if (goal == nullptr) return false;  // a water without it has no ceiling of it
  const Limits& band = goal->band;
  const Interval interval = situation.uncertainty().spread(reading, draft).interval();
  if (is_outside(reading, band, interval.value)) return false;
  if (band.low && band.high && interval.high - interval.low > *band.high - *band.low) return false;
  return distance_outside(reading, band, interval.low) > short_of_surely ||
         distance_outside(reading, band, interval.high) > short_of_surely;
}

std::vector<double> refill_shares(const Assumptions& assumptions, bool water_is_in_tub) {
  const double step = assumptions.refill_step.value;
  const double most = water_is_in_tub ? assumptions.most_replaced.value : 1 - step;
  std::vector<double> shares;
  for (int i = 1; i * step <= most + 1e-9; ++i) shares.push_back(divisions(i, step));
  shares.push_back(1);
  return shares;
}

Refill best_refill(const PlanRequest& request, const PlanningData& data,
                   const SpeciesTable& species, const Waters& waters) {
  if (!waters.second) return {};
  const Situation as_it_is(request, data, species, waters.first, {});
  const std::set<Reading> to_bring_in = astray(as_it_is);
  Score best = score_of(as_it_is, {});
  Refill refill;
  const bool is_full = request.water_is_in_tub;
  if (is_full && reaches_all(best)) return refill;
  for (const double share : refill_shares(data.assumptions, is_full)) {
    const Refill tried{share, "second_source"};
    const Situation situation(request, data, species, refilled(waters, tried, data, species),
                              tried);
    const Score score = score_of(situation, to_bring_in);
    if (is_full ? !meets_more(score, best) : !is_better(score, best)) continue;
    best = score;
    refill = tried;
    if (is_full && reaches_all(best)) break;
  }
  return refill;
}

}  // namespace tub::planning
