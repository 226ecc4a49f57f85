#include "planning/goals/balance.h"

#include <algorithm>
#include <functional>

#include "planning/goals/balance_means.h"
#include "planning/pouring.h"

namespace tub {
namespace {

/// A candidate and what the whole plan comes to with it.
struct Scored {
  Draft moves;
  Score score;
};

bool meets_all(const Score& score) { return score.unsafe == 0 && score.unmet == 0; }

double middle(const Limits& band) {
  if (band.low && band.high) return (*band.low + *band.high) / 2;
  return band.low ? *band.low : *band.high;
}

/// The best of the candidates, tried in stages of more and more additions.
class Search {
 public:
  Search(const Situation& situation, const Frame& frame, const BalanceAims& aims)
      : situation_(situation),
        frame_(frame),
        means_(situation, frame, aims),
        alkaline_(situation.mildest(Purpose::raise_alkalinity)),
        base_(situation.mildest(Purpose::raise_ph)),
        acid_(situation.mildest(Purpose::lower_ph)) {}

  Draft best() {
    consider(Draft{});
    consider(means_.with_air({}));
    if (!done()) singles();
    if (!done()) pairs();
    if (!done()) parts();
    return best_->moves;
  }

 private:
  bool done() const { return best_ && meets_all(best_->score); }

  void consider(const std::optional<Draft>& moves) {
    if (!moves) return;
    Draft cut = means_.within_pour_window(*moves);
    const Score points = score(situation_, frame_.around(cut));
    if (!best_ || is_better(points, best_->score)) best_ = Scored{std::move(cut), points};
  }

  void singles() {
    for (const Supply* supply : {alkaline_, base_, acid_}) {
      if (supply != nullptr) single(*supply, supply == alkaline_);
    }
    if (acid_ != nullptr) consider(means_.acid_and_air(*acid_));
  }

  void single(const Supply& supply, bool only_for_alkalinity) {
    const auto for_alkalinity = means_.for_alkalinity(supply);
    consider(for_alkalinity);
    if (for_alkalinity && &supply != acid_) consider(means_.with_air(*for_alkalinity));
    if (!only_for_alkalinity) consider(means_.for_ph(supply));
  }

  void pairs() {
    for (const bool ph_first : {false, true}) {
      for (const Supply* up : {alkaline_, base_}) {
        if (up == nullptr) continue;
        if (acid_ != nullptr) consider(means_.pair(*up, *acid_, ph_first));
        if (base_ != nullptr && up != base_) consider(means_.pair(*up, *base_, ph_first));
      }
      if (done()) return;
    }
  }

  /// Nothing meets both: as much of one thing as the other reading allows.
  void parts() {
    for (const Supply* supply : {alkaline_, base_, acid_}) {
      if (supply == nullptr) continue;
      for (const auto& single : {means_.for_alkalinity(*supply), means_.for_ph(*supply)}) {
        if (single) consider(means_.within_other_band(*single));
      }
    }
  }

  const Situation& situation_;
  const Frame& frame_;
  BalanceMeans means_;
  const Supply* alkaline_;
  const Supply* base_;
  const Supply* acid_;
  std::optional<Scored> best_;
};

Reach reach_of(const Spread& spread) {
  const Interval interval = spread.interval();
  return {interval.value - interval.low, interval.high - interval.value};
}

void aim_from(const Situation& situation, Reading reading, const Reach& reach, double& from_below,
              double& from_above) {
  const Goal* goal = situation.goal(reading);
  if (goal == nullptr) return;
  from_below = aim(*goal, true, reach);
  from_above = aim(*goal, false, reach);
}

BalanceAims aims_for(const Situation& situation, const Draft& whole) {
  BalanceAims aims;
  const auto spread = [&](Reading reading) {
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
  if (const Goal* goal = situation.goal(Reading::ph)) {
    aims.ph_from_below = aims.ph_from_above = middle(goal->band);
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
  Draft moves = Search(situation, frame, aims).best();
  // The aims follow from how far the plan may be off, and that from the plan: twice is enough.
  for (int i = 0; i < 2 && !moves.empty(); ++i) {
    aims = aims_for(situation, frame.around(moves));
    moves = Search(situation, frame, aims).best();
  }
  return {moves, ph_aim_of(moves, aims)};
}

Balancing with_ph_solved(const Situation& situation, const Frame& frame, const Balancing& balance) {
  Balancing solved = balance;
  for (Move& move : solved.moves) {
    auto* dose = std::get_if<DoseMove>(&move);
    if (dose != nullptr && dose->goal == Reading::ph) {
      dose->mg_l = 0;
      dose->mg_l = missing_for_ph(situation, frame, solved, *dose);
    }
  }
  solve_last_release(situation, frame, solved);
  std::erase_if(solved.moves, [](const Move& move) {
    const auto* dose = std::get_if<DoseMove>(&move);
    return dose != nullptr && dose->mg_l <= 0;
  });
  return solved;
}

}  // namespace tub
