#include "planning/goals/balance_means.h"

#include <algorithm>
#include <array>
#include <cmath>

#include "planning/pours/divisions.h"
#include "planning/pours/pouring.h"

namespace tub::planning {
namespace {

/// The least and the most that is thought of, mg/L of product.
constexpr Range dose_search{1, 3000};
/// Steps of what jets are asked for, log10 of atm: finer cannot be told by any test.
constexpr double release_grain = 0.01;
constexpr int most_rounds = 40;
/// How often the depth of a release is halved in: to a sixteenth of the way.
constexpr int depth_halvings = 4;
/// Of what an edge allows: what is poured is rounded.
constexpr double short_of_edge = 0.97;
/// The same of what the window allows of a pour that others follow.
constexpr double inside = 0.9;
/// Pours of two products by turns: more are too many for one day.
constexpr int most_turns = 6;
/// Jets come no nearer to the air than this, log10: the last of the surplus takes for ever.
constexpr double short_of_air = 0.1;

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

/// Less rounds to nothing.
bool can_be_measured(const Situation& situation, const DoseMove& dose, Scale scale) {
  const double size = situation.size(*dose.supply, dose.mg_l);
  const Measuring owned(situation.request.measure, dose.supply->product(), size);
  return size >= (scale == Scale::owned ? owned : Measuring::finely()).smallest();
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
  const double wanted = bench.log10_pco2(plus(here, carbon, *lost));
  const double to = std::max(division_nearest(wanted, release_grain), deepest_release(situation));
  if (to > bench.log10_pco2(here) - release_grain) return std::nullopt;
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

std::optional<Draft> BalanceMeans::aired_out() const {
  const Water here = situation_.bench.after(situation_.start.water, frame_.before);
  const double to = deepest_release(situation_);
  if (situation_.bench.state(here).log10_pco2_atm <= to + release_grain) return std::nullopt;
  return Draft{ReleaseMove{to}};
}

std::optional<Draft> BalanceMeans::pair(const Supply& alkalinity, const Supply& ph) const {
  if (situation_.goal(Reading::total_alkalinity) == nullptr) return std::nullopt;
  if (situation_.goal(Reading::ph) == nullptr) return std::nullopt;
  const double per_mg = alkalinity_per_mg(alkalinity);
  const double alone =
      (alkalinity_aim(alkalinity) - total_alkalinity_mg_l(untouched_.totals)) / per_mg;
  // Along this direction alkalinity stays at its aim while pH moves.
  const double make_up = -alkalinity_per_mg(ph) / per_mg;
  const Totals direction = ph.per_mg_l() + alkalinity.per_mg_l() * make_up;
  // The least of the second for which there is some of the first, and the most.
  const double least = alone < 0 ? -alone / make_up : 0;
  const double most = make_up < 0 ? std::max(0.0, alone) / -make_up : dose_search.high;
  if (least < 0 || most <= 0) return std::nullopt;
  const Water at_least =
      plus(plus(untouched_, alkalinity.per_mg_l(), std::max(0.0, alone)), ph.per_mg_l(), least);
  const auto more =
      amount_for_ph(at_least, direction, ph_aim(ph), {dose_search.low, most}, situation_.bench);
  if (!more || least + *more <= 0) return std::nullopt;
  const double first = std::max(0.0, alone) + make_up * *more;
  if (first <= 0) return std::nullopt;
  return Draft{DoseMove{&alkalinity, Reading::total_alkalinity, first},
               DoseMove{&ph, Reading::ph, least + *more}};
}

std::optional<Draft> BalanceMeans::buffered(const Supply& alkaline, double alkalinity,
                                            const Supply& ph) const {
  if (situation_.goal(Reading::ph) == nullptr) return std::nullopt;
  const double missing = alkalinity - total_alkalinity_mg_l(untouched_.totals);
  const double first = missing / alkalinity_per_mg(alkaline);
  if (first <= 0) return std::nullopt;
  const Water steady = plus(untouched_, alkaline.per_mg_l(), first);
  const auto more = amount_for_ph(steady, ph.per_mg_l(), ph_aim(ph), dose_search, situation_.bench);
  if (!more || *more <= 0) return std::nullopt;
  return Draft{DoseMove{&alkaline, Reading::ph, first}, DoseMove{&ph, Reading::ph, *more}};
}

Draft BalanceMeans::ph_first(const Draft& pair) const { return {pair.back(), pair.front()}; }

std::optional<Draft> BalanceMeans::ph_around(const Draft& pair) const {
  DoseMove before = std::get<DoseMove>(pair.back());
  DoseMove rest = before;
  const Water from = situation_.bench.after(situation_.start.water, frame_.before);
  before.mg_l = inside * largest_pour(from, *before.supply, before.mg_l, window_of(situation_),
                                      situation_.bench);
  rest.mg_l -= before.mg_l;
  if (!can_be_measured(situation_, before, Scale::owned)) return std::nullopt;
  return Draft{before, pair.front(), rest};
}

std::optional<Draft> BalanceMeans::in_turns(const Draft& pair, Scale scale) const {
  const Bench& bench = situation_.bench;
  Water water = bench.after(situation_.start.water, frame_.before);
  std::array<DoseMove, 2> left = {std::get<DoseMove>(pair.front()),
                                  std::get<DoseMove>(pair.back())};
  Draft moves;
  int passed = 0;  // in a row
  for (std::size_t i = 0; passed < 2 && moves.size() < most_turns; i = 1 - i) {
    DoseMove part = left.at(i);
    const double wanted = part.mg_l / inside;
    const double most = largest_pour(water, *part.supply, wanted, window_of(situation_), bench);
    // All of it, to the last digit, where there is room for all.
    if (most < wanted) part.mg_l = std::min(part.mg_l, inside * most);
    const bool is_turn = can_be_measured(situation_, part, scale);
    passed = is_turn ? 0 : passed + 1;
    if (!is_turn) continue;
    left.at(i).mg_l -= part.mg_l;
    water = bench.after(water, Move{part});
    moves.emplace_back(part);
  }
  const bool is_done = left[0].mg_l <= 0 && left[1].mg_l <= 0;
  return is_done ? std::optional(moves) : std::nullopt;
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

std::optional<double> BalanceMeans::shallowest_safe(RoundsMove turns, const Water& from) const {
  if (turns_are_safe(turns, from)) return turns.release.to_log10_pco2_atm;
  double unsafe = turns.release.to_log10_pco2_atm;
  double safe = deepest_release(situation_);
  turns.release.to_log10_pco2_atm = safe;
  // With a single turn no jets run before the acid.
  if (turns.times == 1 || safe >= unsafe || !turns_are_safe(turns, from)) return std::nullopt;
  for (int i = 0; i < depth_halvings; ++i) {
    turns.release.to_log10_pco2_atm = (safe + unsafe) / 2;
    (turns_are_safe(turns, from) ? safe : unsafe) = turns.release.to_log10_pco2_atm;
  }
  return division_down(safe, release_grain);
}

// Jets that run longer between the turns leave room for more acid in each; the last release alone
// sets the final pH. The fewest turns, and among those the shortest jets.
std::optional<Draft> BalanceMeans::rounds(const DoseMove& all, double to_log10_pco2,
                                          const Draft& first) const {
  const Water from =
      situation_.bench.after(situation_.bench.after(situation_.start.water, frame_.before), first);
  for (int times = std::max(1, additions_of({all})); times <= most_rounds; ++times) {
    RoundsMove turns{all, {to_log10_pco2}, times};
    turns.dose.mg_l = all.mg_l / times;
    const auto to = shallowest_safe(turns, from);
    if (!to) continue;
    turns.release.to_log10_pco2_atm = *to;
    Draft moves = first;
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
  const DoseMove& all = std::get<DoseMove>(dosed->front());
  const auto straight = rounds(all, *to, {});
  // Water full of carbon dioxide has no room for acid until some of it has left.
  const auto aired = rounds(all, *to, {ReleaseMove{*to}});
  if (!straight || (aired && additions_of(*aired) < additions_of(*straight))) return aired;
  return straight;
}

std::optional<Draft> BalanceMeans::up_to_other(const Draft& single, const Limits& other) const {
  DoseMove part = std::get<DoseMove>(single.front());
  const double per_mg = alkalinity_per_mg(*part.supply);
  const std::optional<double> edge = per_mg > 0 ? other.high : other.low;
  if (!edge) return std::nullopt;
  const double whole = part.mg_l;
  if (part.goal == Reading::ph) {
    part.mg_l = (*edge - total_alkalinity_mg_l(untouched_.totals)) / per_mg;
  } else {
    part.mg_l =
        amount_for_ph(untouched_, part.supply->per_mg_l(), *edge, dose_search, situation_.bench)
            .value_or(0);
  }
  part.mg_l *= short_of_edge;
  if (part.mg_l <= 0 || part.mg_l >= whole) return std::nullopt;
  return Draft{part};
}

BalanceMeans::Cut BalanceMeans::within_pour_window(const Draft& moves) const {
  const Bench& bench = situation_.bench;
  Water water = bench.after(situation_.start.water, frame_.before);
  Cut cut{{}, frame_.before};
  const auto take = [&](const Move& move, Draft* also) {
    Move kept = move;
    if (auto* dose = std::get_if<DoseMove>(&kept)) {
      dose->mg_l = largest_pour(water, *dose->supply, dose->mg_l, window_of(situation_), bench);
      if (dose->mg_l <= 0) return;
    }
    water = bench.after(water, kept);
    cut.whole.push_back(kept);
    if (also != nullptr) also->push_back(kept);
  };
  for (const Move& move : moves) take(move, &cut.moves);
  for (const Move& move : frame_.after) take(move, nullptr);
  return cut;
}

}  // namespace tub::planning
