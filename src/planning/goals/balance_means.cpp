#include "planning/goals/balance_means.h"

#include <algorithm>
#include <cmath>

#include "planning/divisions.h"
#include "planning/pouring.h"

namespace tub {
namespace {

/// The least and the most that is thought of, mg/L of product.
constexpr Range dose_search{1, 3000};
/// Steps of what jets are asked for, log10 of atm: finer cannot be told by any test.
constexpr double release_grain = 0.01;
constexpr int most_rounds = 40;
/// Jets come no nearer to the air than this, log10: the last of the surplus takes for ever.
constexpr double short_of_air = 0.1;
/// Steps in which a deeper release is tried.
constexpr double depth_step = 0.1;

double alkalinity_per_mg(const Supply& supply) { return total_alkalinity_mg_l(supply.per_mg_l()); }

Range window_of(const Situation& situation) {
  return {situation.assumptions.pour_ph.low, situation.assumptions.pour_ph.high};
}

double deepest_release(const Situation& situation) {
  return situation.bench.species().gas_exchange().air_log10_pco2_atm + short_of_air;
}

/// All turns alike as one repeat; else the last one by itself, with its own release.
void append_turns(Draft& moves, RoundsMove turns, double last_release) {
  const bool all_alike = turns.release.to_log10_pco2_atm == last_release;
  if (!all_alike) --turns.times;
  if (turns.times > 1) {
    moves.emplace_back(turns);
  } else {
    moves.emplace_back(turns.dose);
    moves.emplace_back(turns.release);
  }
  if (all_alike) return;
  moves.emplace_back(turns.dose);
  moves.emplace_back(ReleaseMove{last_release});
}

Water plus(const Water& water, const Totals& totals, double amount) {
  Water result = water;
  result.totals += totals * amount;
  return result;
}

}  // namespace

std::optional<double> release_for_ph(const Situation& situation, const Frame& frame,
                                     const Draft& doses, double ph) {
  const Bench& bench = situation.bench;
  const Water final = bench.after(situation.start.water, frame.around(doses));
  Totals carbon;
  carbon[Component::carbonate] = -1;
  const double most = final.totals[Component::carbonate] * 0.999;
  const auto lost = amount_for_ph(final, carbon, ph, {most / 64, most}, bench);
  if (!lost || *lost <= 0) return std::nullopt;
  Draft until = frame.before;
  until.insert(until.end(), doses.begin(), doses.end());
  const Water here = bench.after(situation.start.water, until);
  const double wanted = bench.state(plus(here, carbon, *lost)).log10_pco2_atm;
  const double to = std::max(division_nearest(wanted, release_grain), deepest_release(situation));
  if (to > bench.state(here).log10_pco2_atm - release_grain) return std::nullopt;
  return to;
}

BalanceMeans::BalanceMeans(const Situation& situation, const Frame& frame, const BalanceAims& aims)
    : situation_(situation), frame_(frame), aims_(aims), untouched_(final({})) {}

Water BalanceMeans::final(const Draft& moves) const {
  return situation_.bench.after(situation_.start.water, frame_.around(moves));
}

double BalanceMeans::alkalinity_aim(const Supply& supply) const {
  return alkalinity_per_mg(supply) > 0 ? aims_.alkalinity_from_below : aims_.alkalinity_from_above;
}

double BalanceMeans::ph_aim(const Supply& supply) const {
  return supply.product().can(Purpose::lower_ph) ? aims_.ph_from_above : aims_.ph_from_below;
}

std::optional<Draft> BalanceMeans::for_alkalinity(const Supply& supply) const {
  if (situation_.goal(Reading::total_alkalinity) == nullptr) return std::nullopt;
  const double missing = alkalinity_aim(supply) - total_alkalinity_mg_l(untouched_.totals);
  const double mg_l = missing / alkalinity_per_mg(supply);
  if (mg_l <= 0) return std::nullopt;
  return Draft{DoseMove{&supply, Reading::total_alkalinity, mg_l}};
}

std::optional<Draft> BalanceMeans::for_ph(const Supply& supply) const {
  if (situation_.goal(Reading::ph) == nullptr) return std::nullopt;
  const auto mg_l =
      amount_for_ph(untouched_, supply.per_mg_l(), ph_aim(supply), dose_search, situation_.bench);
  if (!mg_l || *mg_l <= 0) return std::nullopt;
  return Draft{DoseMove{&supply, Reading::ph, *mg_l}};
}

std::optional<Draft> BalanceMeans::with_air(const Draft& doses) const {
  if (situation_.goal(Reading::ph) == nullptr) return std::nullopt;
  const auto to = release_for_ph(situation_, frame_, doses, aims_.ph_from_below);
  if (!to) return std::nullopt;
  Draft moves = doses;
  moves.emplace_back(ReleaseMove{*to});
  return moves;
}

std::optional<Draft> BalanceMeans::pair(const Supply& alkalinity, const Supply& ph,
                                        bool ph_first) const {
  if (situation_.goal(Reading::total_alkalinity) == nullptr) return std::nullopt;
  if (situation_.goal(Reading::ph) == nullptr) return std::nullopt;
  const double per_mg = alkalinity_per_mg(alkalinity);
  const double alone =
      (alkalinity_aim(alkalinity) - total_alkalinity_mg_l(untouched_.totals)) / per_mg;
  // Along this direction alkalinity stays at its aim while pH moves.
  const double make_up = -alkalinity_per_mg(ph) / per_mg;
  const Totals direction = ph.per_mg_l() + alkalinity.per_mg_l() * make_up;
  const Water at_aim = plus(untouched_, alkalinity.per_mg_l(), alone);
  const auto second = amount_for_ph(at_aim, direction, ph_aim(ph), dose_search, situation_.bench);
  if (!second || *second <= 0 || alone + make_up * *second <= 0) return std::nullopt;
  Draft moves{DoseMove{&alkalinity, Reading::total_alkalinity, alone + make_up * *second},
              DoseMove{&ph, Reading::ph, *second}};
  if (ph_first) std::swap(moves.front(), moves.back());
  return moves;
}

bool BalanceMeans::turns_are_safe(const RoundsMove& rounds, const Water& from) const {
  const Bench& bench = situation_.bench;
  const auto is_safe = [&](const Water& water) {
    const DoseMove& turn = rounds.dose;
    return largest_pour(water, *turn.supply, turn.mg_l, window_of(situation_), bench) >= turn.mg_l;
  };
  if (!is_safe(from)) return false;
  if (rounds.times == 1) return true;
  // The last turn finds the least alkalinity to stand against the acid.
  RoundsMove before_last = rounds;
  --before_last.times;
  return is_safe(bench.after(from, Move{before_last}));
}

// Jets that run longer between the turns leave room for more acid in each; the last release alone
// sets the final pH. The fewest turns, and among those the shortest jets.
std::optional<Draft> BalanceMeans::rounds(const DoseMove& all, double to_log10_pco2) const {
  const Bench& bench = situation_.bench;
  Draft moves;
  Water from = bench.after(situation_.start.water, frame_.before);
  if (bench.ph(from) <= window_of(situation_).low) {
    moves.emplace_back(ReleaseMove{to_log10_pco2});
    from = bench.after(from, moves.back());
  }
  for (int times = std::max(1, additions_of({all})); times <= most_rounds; ++times) {
    RoundsMove turns{all, {to_log10_pco2}, times};
    turns.dose.mg_l = all.mg_l / times;
    while (!turns_are_safe(turns, from)) {
      turns.release.to_log10_pco2_atm -= depth_step;
      if (times == 1 || turns.release.to_log10_pco2_atm < deepest_release(situation_)) break;
    }
    if (!turns_are_safe(turns, from)) continue;
    turns.release.to_log10_pco2_atm = division_nearest(turns.release.to_log10_pco2_atm, 0.01);
    append_turns(moves, turns, to_log10_pco2);
    return moves;
  }
  return std::nullopt;
}

std::optional<Draft> BalanceMeans::acid_and_air(const Supply& acid) const {
  const auto dosed = for_alkalinity(acid);
  if (!dosed) return std::nullopt;
  const auto to = release_for_ph(situation_, frame_, *dosed, aims_.ph_from_below);
  if (!to) return std::nullopt;
  return rounds(std::get<DoseMove>(dosed->front()), *to);
}

std::optional<Draft> BalanceMeans::within_other_band(const Draft& single) const {
  if (single.size() != 1) return std::nullopt;
  const auto* whole = std::get_if<DoseMove>(&single.front());
  if (whole == nullptr) return std::nullopt;
  const bool is_for_ph = whole->goal == Reading::ph;
  const Goal* other = situation_.goal(is_for_ph ? Reading::total_alkalinity : Reading::ph);
  if (other == nullptr) return std::nullopt;
  const bool rises = alkalinity_per_mg(*whole->supply) > 0;
  const std::optional<double> edge = rises ? other->band.high : other->band.low;
  if (!edge) return std::nullopt;
  DoseMove part = *whole;
  if (is_for_ph) {
    part.mg_l =
        (*edge - total_alkalinity_mg_l(untouched_.totals)) / alkalinity_per_mg(*whole->supply);
  } else {
    part.mg_l =
        amount_for_ph(untouched_, whole->supply->per_mg_l(), *edge, dose_search, situation_.bench)
            .value_or(0);
  }
  if (part.mg_l <= 0 || part.mg_l >= whole->mg_l) return std::nullopt;
  return Draft{part};
}

Draft BalanceMeans::within_pour_window(const Draft& moves) const {
  const Bench& bench = situation_.bench;
  Water water = bench.after(situation_.start.water, frame_.before);
  Draft cut;
  for (const Move& move : moves) {
    Move kept = move;
    if (auto* dose = std::get_if<DoseMove>(&kept)) {
      dose->mg_l = largest_pour(water, *dose->supply, dose->mg_l, window_of(situation_), bench);
      if (dose->mg_l <= 0) continue;
    }
    water = bench.after(water, kept);
    cut.push_back(kept);
  }
  return cut;
}

}  // namespace tub
