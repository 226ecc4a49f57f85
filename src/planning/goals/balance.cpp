#include "planning/goals/balance.h"

#include <algorithm>
#include <functional>

#include "planning/goals/balance_means.h"
#include "planning/pours/pouring.h"

namespace tub::planning {
namespace {

/// A way to solve for both readings; solved again it gives other amounts for other aims.
using Way = std::function<std::optional<Draft>(const BalanceMeans&)>;

/// A way, what it comes to, and what the whole plan then comes to.
struct Candidate {
  Way way;
  Draft moves;
  Score score;
};

bool meets_all(const Score& score) { return score.unsafe == 0 && score.unmet == 0; }

double middle(const Limits& band) {
  if (band.low && band.high) return (*band.low + *band.high) / 2;
  return band.low ? *band.low : *band.high;
}

std::optional<Candidate> solved(const Situation& situation, const BalanceMeans& means,
                                const Way& way) {
  const std::optional<Draft> moves = way(means);
  if (!moves) return std::nullopt;
  const BalanceMeans::Cut cut = means.within_pour_window(*moves);
  return Candidate{way, cut.moves, score(situation, cut.whole)};
}

/// The best of the candidates, tried in stages of more and more additions.
class Search {
 public:
  Search(const Situation& situation, const BalanceMeans& means)
      : situation_(situation),
        means_(means),
        alkaline_(situation.mildest(Purpose::raise_alkalinity)),
        base_(situation.mildest(Purpose::raise_ph)),
        acid_(situation.mildest(Purpose::lower_ph)) {}

  Candidate best() {
    consider([](const BalanceMeans&) { return Draft{}; });
    consider([](const BalanceMeans& means) { return means.with_air({}); });
    if (!done()) singles();
    if (!done()) pairs();
    if (!done() && situation_.goal(Reading::total_alkalinity) == nullptr) steadied();
    if (!done()) parts();
    return *best_;
  }

 private:
  bool done() const { return best_ && meets_all(best_->score); }

  void consider(const Way& way) {
    const auto candidate = solved(situation_, means_, way);
    if (!candidate) return;
    if (!best_ || is_better(candidate->score, best_->score)) best_ = candidate;
  }

  void singles() {
    for (const Supply* supply : {alkaline_, base_, acid_}) {
      if (supply != nullptr) single(*supply);
    }
    if (acid_ == nullptr) return;
    consider([acid = acid_](const BalanceMeans& means) { return means.acid_and_air(*acid); });
  }

  void single(const Supply& supply) {
    consider([&supply](const BalanceMeans& means) { return means.for_alkalinity(supply); });
    if (&supply != alkaline_) {
      consider([&supply](const BalanceMeans& means) { return means.for_ph(supply); });
    }
    if (&supply == acid_) return;
    consider([&supply](const BalanceMeans& means) -> std::optional<Draft> {
      const auto dosed = means.for_alkalinity(supply);
      return dosed ? means.with_air(*dosed) : std::nullopt;
    });
  }

  void pairs() {
    for (const Supply* up : {alkaline_, base_}) {
      for (const Supply* other : {acid_, base_}) {
        if (up != nullptr && other != nullptr && up != other) pair(*up, *other);
      }
    }
  }

  void pair(const Supply& up, const Supply& other) {
    consider([&](const BalanceMeans& means) { return means.pair(up, other); });
    if (done() || !means_.pair(up, other)) return;
    consider([&](const BalanceMeans& means) -> std::optional<Draft> {
      const auto both = means.pair(up, other);
      return both ? std::optional(means.ph_first(*both)) : std::nullopt;
    });
    consider([&](const BalanceMeans& means) -> std::optional<Draft> {
      const auto both = means.pair(up, other);
      return both ? means.ph_around(*both) : std::nullopt;
    });
    for (const Scale scale : {Scale::owned, Scale::fine}) {
      if (done()) return;
      consider([&, scale](const BalanceMeans& means) -> std::optional<Draft> {
        const auto both = means.pair(up, other);
        return both ? means.in_turns(*both, scale) : std::nullopt;
      });
    }
  }

  /// The set asks for no alkalinity, but without any pH does not hold still.
  void steadied() {
    if (alkaline_ != nullptr) {
      consider([up = alkaline_](const BalanceMeans& means) { return means.for_ph(*up); });
    }
    const Supply* const up = alkaline_ != nullptr ? alkaline_ : base_;
    if (up == nullptr) return;
    const Assumed& enough = situation_.assumptions.steadying_alkalinity_mg_l;
    for (const double alkalinity : {enough.low, enough.value, enough.high}) {
      for (const Supply* other : {acid_, base_}) {
        if (other != nullptr && other != up && !done()) steadied(*up, alkalinity, *other);
      }
    }
  }

  void steadied(const Supply& up, double alkalinity, const Supply& other) {
    const auto both = [&up, alkalinity, &other](const BalanceMeans& means) {
      return means.buffered(up, alkalinity, other);
    };
    consider(both);
    consider([both](const BalanceMeans& means) -> std::optional<Draft> {
      const auto pair = both(means);
      return pair ? std::optional(means.ph_first(*pair)) : std::nullopt;
    });
    consider([both](const BalanceMeans& means) -> std::optional<Draft> {
      const auto pair = both(means);
      return pair ? means.ph_around(*pair) : std::nullopt;
    });
  }

  /// Nothing meets both: as much of one thing as the other reading's band, or its gate, allows.
  void parts() {
    consider([](const BalanceMeans& means) { return means.aired_out(); });
    for (const Supply* supply : {alkaline_, base_, acid_}) {
      if (supply == nullptr) continue;
      for (const bool for_ph : {false, true}) part(*supply, for_ph);
    }
  }

  void part(const Supply& supply, bool for_ph) {
    const Reading other = for_ph ? Reading::total_alkalinity : Reading::ph;
    const auto up_to = [&supply, for_ph](const Limits& limits) -> Way {
      return [&supply, for_ph, limits](const BalanceMeans& means) -> std::optional<Draft> {
        const auto whole = for_ph ? means.for_ph(supply) : means.for_alkalinity(supply);
        return whole ? means.up_to_other(*whole, limits) : std::nullopt;
      };
    };
    if (const Goal* goal = situation_.goal(other)) consider(up_to(goal->band));
    const auto gate = situation_.gate.readings.find(other);
    if (gate == situation_.gate.readings.end()) return;
    consider(up_to({gate->second.low, gate->second.high}));
  }

  const Situation& situation_;
  const BalanceMeans& means_;
  const Supply* alkaline_;
  const Supply* base_;
  const Supply* acid_;
  std::optional<Candidate> best_;
};

Reach reach_of(const Spread& spread) {
  const Interval interval = spread.interval();
  return {interval.value - interval.low, interval.high - interval.value};
}

/// A goal for pH inside the pour window as far as its band allows: later pours need the room.
Goal goal_to_aim_at(const Situation& situation, Reading reading) {
  Goal goal = *situation.goal(reading);
  if (reading != Reading::ph || goal.ideal) return goal;
  const Assumed& window = situation.assumptions.pour_ph;
  const Limits inside{std::max(goal.band.low.value_or(window.low), window.low),
                      std::min(goal.band.high.value_or(window.high), window.high)};
  if (*inside.low < *inside.high) goal.band = inside;
  return goal;
}

void aim_from(const Situation& situation, Reading reading, const Reach& reach, double& from_below,
              double& from_above) {
  if (situation.goal(reading) == nullptr) return;
  const Goal goal = goal_to_aim_at(situation, reading);
  from_below = aim(goal, true, reach);
  from_above = aim(goal, false, reach);
}

BalanceAims aims_for(const Situation& situation, const Draft& whole) {
  BalanceAims aims;
  const auto spread = [&](Reading reading) {
    // An ideal is aimed at however far the plan may be off.
    if (situation.goal(reading)->ideal) return Reach{};
    return reach_of(situation.uncertainty().spread(reading, whole));
  };
  if (situation.goal(Reading::total_alkalinity) != nullptr) {
    aim_from(situation, Reading::total_alkalinity, spread(Reading::total_alkalinity),
             aims.alkalinity_from_below, aims.alkalinity_from_above);
  }
  if (situation.goal(Reading::ph) != nullptr) {
    aim_from(situation, Reading::ph, spread(Reading::ph), aims.ph_from_below, aims.ph_from_above);
  }
  return aims;
}

BalanceAims first_aims(const Situation& situation) {
  BalanceAims aims;
  if (const Goal* goal = situation.goal(Reading::total_alkalinity)) {
    aims.alkalinity_from_below = aims.alkalinity_from_above = middle(goal->band);
  }
  if (situation.goal(Reading::ph) != nullptr) {
    aims.ph_from_below = aims.ph_from_above = middle(goal_to_aim_at(situation, Reading::ph).band);
  }
  return aims;
}

/// The aim that the moves for pH come to: acid comes from above.
double ph_aim_of(const Draft& moves, const BalanceAims& aims) {
  const bool lowers = std::any_of(moves.begin(), moves.end(), [](const Move& move) {
    const auto* dose = std::get_if<DoseMove>(&move);
    return dose != nullptr && dose->goal == Reading::ph &&
           dose->supply->product().can(Purpose::lower_ph);
  });
  return lowers ? aims.ph_from_above : aims.ph_from_below;
}

double missing_for_ph(const Situation& situation, const Frame& frame, const Balancing& balance,
                      const DoseMove& dose) {
  const Water final = situation.bench.after(situation.start.water, frame.around(balance.moves));
  return amount_for_ph(final, dose.supply->per_mg_l(), balance.ph_aim, {1, 3000}, situation.bench)
      .value_or(0);
}

/// Only the last release sets the final pH.
void solve_last_release(const Situation& situation, const Frame& frame, Balancing& balance) {
  Draft& moves = balance.moves;
  for (std::size_t i = moves.size(); i-- > 0;) {
    Draft before(moves.begin(), moves.begin() + static_cast<std::ptrdiff_t>(i));
    ReleaseMove* release = std::get_if<ReleaseMove>(&moves[i]);
    if (auto* rounds = std::get_if<RoundsMove>(&moves[i])) {
      DoseMove all = rounds->dose;
      all.mg_l *= rounds->times;
      before.emplace_back(all);
      release = &rounds->release;
    }
    if (release == nullptr) continue;
    const auto to = release_for_ph(situation, frame, before, balance.ph_aim);
    if (to) release->to_log10_pco2_atm = *to;
    if (!to && std::holds_alternative<ReleaseMove>(moves[i])) {
      moves.erase(moves.begin() + static_cast<std::ptrdiff_t>(i));
    }
    return;
  }
}

}  // namespace

Draft Frame::around(const Draft& balance) const {
  Draft whole = before;
  whole.insert(whole.end(), balance.begin(), balance.end());
  whole.insert(whole.end(), after.begin(), after.end());
  return whole;
}

Balancing balanced(const Situation& situation, const Frame& frame) {
  BalanceAims aims = first_aims(situation);
  const BalanceMeans first(situation, frame, aims);
  Candidate best = Search(situation, first).best();
  // The aims follow from how far the plan may be off, and that from the plan: twice settles it.
  for (int i = 0; i < 2 && !best.moves.empty(); ++i) {
    const BalanceAims closer = aims_for(situation, frame.around(best.moves));
    const auto again = solved(situation, BalanceMeans(situation, frame, closer), best.way);
    if (!again || again->score.unmet > best.score.unmet) break;
    best = *again;
    aims = closer;
  }
  return {best.moves, ph_aim_of(best.moves, aims)};
}

DoseMove* last_for_ph(Draft& moves) {
  for (std::size_t i = moves.size(); i-- > 0;) {
    auto* dose = std::get_if<DoseMove>(&moves[i]);
    if (dose != nullptr && dose->goal == Reading::ph) return dose;
  }
  return nullptr;
}

Balancing with_ph_solved(const Situation& situation, const Frame& frame, const Balancing& balance) {
  Balancing solved = balance;
  if (DoseMove* dose = last_for_ph(solved.moves)) {
    dose->mg_l = 0;
    dose->mg_l = missing_for_ph(situation, frame, solved, *dose);
  }
  solve_last_release(situation, frame, solved);
  std::erase_if(solved.moves, [](const Move& move) {
    const auto* dose = std::get_if<DoseMove>(&move);
    return dose != nullptr && dose->mg_l <= 0;
  });
  return solved;
}

}  // namespace tub::planning
