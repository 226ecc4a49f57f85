#include "planning/pours/pour_out.h"

#include <algorithm>
#include <cmath>
#include <iterator>
#include <limits>
#include <set>

#include "planning/goals/objective.h"
#include "planning/goals/sanitizer.h"
#include "planning/pours/divisions.h"
#include "planning/pours/portions.h"
#include "planning/pours/pouring.h"

namespace tub::planning {
namespace {

/// Days until tablets are tested for at the latest. Assumption: who waits longer forgets.
constexpr double most_days_in_floater = 3;
constexpr double days_grain = 0.5;
constexpr double fine_days_grain = 1.0 / 24;

constexpr double unlimited = std::numeric_limits<double>::infinity();

std::span<const Move> up_to(const Draft& draft, std::size_t count) {
  return std::span<const Move>(draft).first(count);
}

double limit_mg_l(const DoseMove& dose) {
  const double limit = dose.supply->product().single_addition_mg_l;
  if (limit > 0) return limit;
  return unlimited;
}

/// Doses that two pours cannot carry, as several equal ones; a demand is met by the first.
Draft in_carriable_steps(const Draft& draft) {
  Draft result;
  for (const Move& move : draft) {
    const auto* dose = std::get_if<DoseMove>(&move);
    const int steps = dose == nullptr ? 1 : std::max(1, additions_of({move}));
    for (int i = 0; i < steps; ++i) {
      Move part = move;
      if (auto* some = std::get_if<DoseMove>(&part)) {
        some->mg_l /= steps;
        if (i > 0) some->spends_mg_l = 0;
      }
      result.push_back(part);
    }
  }
  return result;
}

/// Measures out doses of a draft in parts.
class PouringOut {
 public:
  PouringOut(const Situation& situation, DraftParts parts, const std::set<Reading>& fine)
      : situation_(situation), parts_(std::move(parts)), fine_(fine) {}

  Draft all() {
    parts_.frame.after = in_carriable_steps(parts_.frame.after);
    parts_.balance.moves = in_carriable_steps(parts_.balance.moves);
    pour(parts_.frame.before);
    pour(parts_.frame.after);
    pour_balance();
    parts_.balance = with_ph_solved(situation_, parts_.frame, parts_.balance);
    pour_last_for_ph();
    pour_less_where_ph_moved();
    return parts_.whole();
  }

 private:
  void pour(Draft& section) {
    for (Move& move : section) {
      if (auto* dose = std::get_if<DoseMove>(&move)) pour(*dose, move);
    }
    drop_empty(section);
  }

  /// All but the dose that pH is left to.
  void pour_balance() {
    const DoseMove* last = last_for_ph(parts_.balance.moves);
    for (Move& move : parts_.balance.moves) {
      if (auto* dose = std::get_if<DoseMove>(&move); dose != nullptr && dose != last) {
        pour(*dose, move);
      }
      if (auto* rounds = std::get_if<RoundsMove>(&move)) pour_turn(*rounds, dose_after(*rounds));
    }
    drop_empty(parts_.balance.moves);
  }

  void pour_last_for_ph() {
    DoseMove* last = last_for_ph(parts_.balance.moves);
    for (Move& move : parts_.balance.moves) {
      if (last != nullptr && std::get_if<DoseMove>(&move) == last) pour(*last, move);
    }
    drop_empty(parts_.balance.moves);
  }

  /// Sanitizer and calcium were measured out before the balance was, and in it alkalinity before
  /// pH: the rounding of what stands before them may have taken the room that a pour needs.
  void pour_less_where_ph_moved() {
    if (pour_less(parts_.balance.moves)) {
      parts_.balance = with_ph_solved(situation_, parts_.frame, parts_.balance);
      pour_last_for_ph();
      pour_less(parts_.balance.moves);
    }
    pour_less(parts_.frame.after);
  }

  /// Whether any dose of the section had to be less.
  bool pour_less(Draft& section) {
    bool is_less = false;
    for (Move& move : section) {
      auto* dose = std::get_if<DoseMove>(&move);
      if (dose == nullptr || !is_quick(move)) continue;
      const Water before =
          situation_.bench.after(situation_.start.water, up_to(parts_.whole(), index_of(move)));
      if (largest_pour(before, *dose->supply, dose->mg_l, window(), situation_.bench) <
          dose->mg_l) {
        pour(*dose, move);
        is_less = true;
      }
    }
    drop_empty(section);
    return is_less;
  }

  Range window() const {
    return {situation_.assumptions.pour_ph.low, situation_.assumptions.pour_ph.high};
  }

  static void drop_empty(Draft& section) {
    std::erase_if(section, [](const Move& move) {
      const auto* dose = std::get_if<DoseMove>(&move);
      return dose != nullptr && dose->mg_l <= 0;
    });
  }

  Measuring measuring(const DoseMove& dose) const {
    const Product& product = dose.supply->product();
    if (dose.goal && fine_.contains(*dose.goal)) return Measuring::finely();
    const double share = dose.goal ? situation_.assumptions.first_pour_share.value : 1;
    const double first = std::min(share * dose.mg_l, limit_mg_l(dose));
    return Measuring(situation_.request.measure, product, situation_.size(*dose.supply, first));
  }

  void set(DoseMove& dose, Pours pours) const {
    std::erase_if(pours.amounts, [](const Measuring::Amount& amount) { return amount.size <= 0; });
    double sum = 0;
    for (const Measuring::Amount& amount : pours.amounts) sum += amount.size;
    pours.is_fine = dose.goal && fine_.contains(*dose.goal);
    dose.pours = std::make_shared<const Pours>(std::move(pours));
    dose.mg_l = situation_.mg_l(*dose.supply, sum);
  }

  /// `move` is where the dose stands, so that its place in the whole draft can be found.
  void pour(DoseMove& dose, const Move& move) {
    const Supply& supply = *dose.supply;
    const double size = situation_.size(supply, dose.mg_l);
    if (supply.product().dissolves) return pour_tablets(dose, size);
    if (!dose.goal) return set(dose, {.amounts = {measuring(dose).nearest(size)}, .asked = size});
    const Draft whole = parts_.whole();
    const std::size_t index = index_of(move);
    const PourRules bounds = rules(whole, index, dose);
    Split parts = split(size, bounds, measuring(dose));
    set(dose, {.amounts = std::move(parts.pours),
               .asked = size,
               .first = parts.first,
               .most_in_one = bounds.limit,
               .most_in_all = bounds.total_limit});
  }

  /// What is left of a step that was interrupted: its first pour is in, and was tested.
  bool goes_on(const DoseMove& dose) const {
    const Resumption* const resumption = situation_.resumption();
    return resumption != nullptr && resumption->interrupted &&
           resumption->interrupted->reading == dose.goal &&
           resumption->interrupted->product == dose.supply->product().id;
  }

  /// The fewest whole tablets from which so many grams dissolve within the days, and how long they
  /// take for it.
  void pour_tablets(DoseMove& dose, double grams) const {
    const Product::Dissolving& tablet = *dose.supply->product().dissolves;
    const double each = tablet.g_per_day.value;
    const double count = std::ceil(grams / (each * most_days_in_floater) - 1e-9);
    const double grain = fine_.contains(*dose.goal) ? fine_days_grain : days_grain;
    const double days = std::max(grain, division_nearest(grams / (count * each), grain));
    const Measuring::Amount amount{count * tablet.piece_g, {{count, "tablet"}}};
    dose.pours = std::make_shared<const Pours>(Pours{{amount}, false, days, grams});
    dose.mg_l = situation_.mg_l(*dose.supply, count * each * days);
  }

  PourRules rules(const Draft& whole, std::size_t index, const DoseMove& dose) const {
    const Supply& supply = *dose.supply;
    const Assumptions& assumed = situation_.assumptions;
    const Water before = situation_.bench.after(situation_.start.water, up_to(whole, index));
    // Twice the amount is more than any rounding asks for.
    const double most = largest_pour(before, supply, 2 * dose.mg_l, window(), situation_.bench);
    PourRules rules;
    rules.most_share = goes_on(dose) ? 1 : assumed.first_pour_share.value;
    rules.least_share = assumed.least_first_pour_share.value;
    rules.bound = assumed.overshoot_bound.value;
    rules.limit = situation_.size(supply, limit_mg_l(dose));
    rules.total_limit = most < 2 * dose.mg_l ? situation_.size(supply, most) : unlimited;
    const Overshoot chance(situation_, {whole, index, band_at(situation_, whole, index)});
    rules.overshoot = [this, chance, &supply](double pour) {
      return chance(situation_.mg_l(supply, pour));
    };
    return rules;
  }

  /// The dose that goes on with what the turns began; null if there is none.
  DoseMove* dose_after(const RoundsMove& rounds) {
    bool is_after = false;
    for (Move& move : parts_.balance.moves) {
      auto* dose = std::get_if<DoseMove>(&move);
      const bool goes_on =
          dose != nullptr && dose->supply == rounds.dose.supply && dose->goal == rounds.dose.goal;
      if (is_after && goes_on) return dose;
      is_after = is_after || std::get_if<RoundsMove>(&move) == &rounds;
    }
    return nullptr;
  }

  /// A turn's acid is measured down, so that no turn goes past what the pour window allows; the
  /// turns are then as many as come nearest to the whole; or enough, where a last dose can be less
  /// by what that is too much, and still is half of itself.
  void pour_turn(RoundsMove& rounds, DoseMove* last) {
    DoseMove& dose = rounds.dose;
    const double all_mg_l = dose.mg_l * rounds.times;
    const Measuring by = measuring(dose);
    const double size = situation_.size(*dose.supply, dose.mg_l);
    const double limit = situation_.size(*dose.supply, limit_mg_l(dose));
    Measuring::Amount half = by.nearest(size / 2);
    if (half.size > limit) half = by.down(limit);
    const Measuring::Amount rest = by.down(std::min(limit, size - half.size));
    std::vector amounts = size <= limit ? std::vector{by.down(size)} : std::vector{half, rest};
    set(dose, {.amounts = std::move(amounts), .asked = size, .most_in_one = limit});
    if (dose.mg_l <= 0) return;
    const double turns = all_mg_l / dose.mg_l;
    const double enough = std::ceil(turns - 1e-9);
    const double too_much_mg_l = (enough - turns) * dose.mg_l;
    const bool takes_rest = last != nullptr && last->mg_l > 2 * too_much_mg_l;
    rounds.times = std::max(1, static_cast<int>(takes_rest ? enough : std::round(turns)));
    if (takes_rest) last->mg_l -= too_much_mg_l;
  }

  std::size_t index_of(const Move& move) const {
    const auto place = [&](const Draft& section) -> std::optional<std::size_t> {
      for (std::size_t i = 0; i < section.size(); ++i) {
        if (&section[i] == &move) return i;
      }
      return std::nullopt;
    };
    const std::size_t before = parts_.frame.before.size();
    if (const auto i = place(parts_.balance.moves)) return before + *i;
    if (const auto i = place(parts_.frame.after)) return before + parts_.balance.moves.size() + *i;
    return place(parts_.frame.before).value_or(0);
  }

  const Situation& situation_;
  DraftParts parts_;
  const std::set<Reading>& fine_;
};

/// What is missed is measured finely; what still is, together with the reading that moves with it.
std::set<Reading> finer_for(const std::set<Reading>& missed, const std::set<Reading>& fine) {
  std::set<Reading> finer = fine;
  finer.insert(missed.begin(), missed.end());
  if (finer != fine) return finer;
  if (missed.contains(Reading::ph)) finer.insert(Reading::total_alkalinity);
  if (missed.contains(Reading::total_alkalinity)) finer.insert(Reading::ph);
  return finer;
}

/// With everything measured as coarsely as keeps what is met.
Draft measured_out(const Situation& situation, const DraftParts& parts) {
  const auto outside = [&](const Draft& draft) {
    return outside_bands(situation.goals, situation.final_state(draft));
  };
  const std::set<Reading> never_met = outside(parts.whole());
  std::set<Reading> fine;
  // What is measured finely moves the others a little: until nothing more is missed.
  for (;;) {
    Draft poured = PouringOut(situation, parts, fine).all();
    std::set<Reading> missed;
    const std::set<Reading> unmet = outside(poured);
    std::set_difference(unmet.begin(), unmet.end(), never_met.begin(), never_met.end(),
                        std::inserter(missed, missed.end()));
    const std::set<Reading> finer = finer_for(missed, fine);
    if (finer == fine) return poured;
    fine = finer;
  }
}

/// The parts without any dose for these readings.
DraftParts without(DraftParts parts, const std::set<Reading>& left_out) {
  for (Draft* section : {&parts.frame.before, &parts.balance.moves, &parts.frame.after}) {
    std::erase_if(*section, [&](const Move& move) {
      const auto* dose = std::get_if<DoseMove>(&move);
      return dose != nullptr && dose->goal && left_out.contains(*dose->goal);
    });
  }
  return parts;
}

double first_mg_l(const Situation& situation, const DoseMove& dose) {
  return dose.pours->days > 0 ? dose.mg_l
                              : situation.mg_l(*dose.supply, dose.pours->amounts.front().size);
}

/// A reading that a first pour would as likely as not take too far.
std::optional<Reading> likely_overshot(const Situation& situation, const Draft& draft) {
  constexpr double likelier_than_not = 0.5;
  for (std::size_t i = 0; i < draft.size(); ++i) {
    const auto* dose = std::get_if<DoseMove>(&draft[i]);
    if (dose == nullptr || !dose->goal) continue;
    const Overshoot chance(situation, {draft, i, band_at(situation, draft, i)});
    if (chance(first_mg_l(situation, *dose)) > likelier_than_not) return dose->goal;
  }
  return std::nullopt;
}

}  // namespace

PouredOut poured_out(const Situation& situation, const DraftParts& parts) {
  std::set<Reading> left_out;
  for (;;) {
    Draft poured = measured_out(situation, without(parts, left_out));
    const auto overshot = likely_overshot(situation, poured);
    if (!overshot || !left_out.insert(*overshot).second) return {poured, left_out};
  }
}

Totals direction_of(const Move& move) {
  if (const auto* dose = std::get_if<DoseMove>(&move)) return dose->supply->per_mg_l();
  if (const auto* rounds = std::get_if<RoundsMove>(&move)) return rounds->dose.supply->per_mg_l();
  Totals carbon;
  carbon[Component::carbonate] = -1;
  return carbon;
}

Limits band_at(const Situation& situation, const Draft& draft, std::size_t index) {
  const auto* dose = std::get_if<DoseMove>(&draft.at(index));
  const auto* rounds = std::get_if<RoundsMove>(&draft.at(index));
  const Reading reading = dose != nullptr     ? *dose->goal
                          : rounds != nullptr ? *rounds->dose.goal
                                              : Reading::ph;
  const Goal* goal = situation.goal(reading);
  if (goal == nullptr) return {};
  const Water& start = situation.start.water;
  const Course course{situation.bench.after(start, up_to(draft, index + 1)),
                      situation.bench.after(start, draft)};
  return carried_back(reading, goal->band, course, direction_of(draft.at(index)), situation.bench);
}

bool lowers(const DoseMove& dose) { return dose.supply->product().can(Purpose::lower_ph); }

Draft until_poured(const Draft& draft, std::size_t index, double mg_l) {
  Draft until(draft.begin(), draft.begin() + static_cast<std::ptrdiff_t>(index) + 1);
  std::get<DoseMove>(until.back()).mg_l = mg_l;
  return until;
}

Overshoot::Overshoot(const Situation& situation, const PartialDose& dose)
    : dose_(std::get<DoseMove>(dose.draft.at(dose.index))),
      band_(dose.band),
      before_(situation.uncertainty().at_start(up_to(dose.draft, dose.index + 1))) {
  for (const Move& move : up_to(dose.draft, dose.index)) before_.go(move);
}

double Overshoot::operator()(double mg_l) const {
  const bool falls = lowers(dose_);
  const std::optional<double> far = falls ? band_.low : band_.high;
  if (!far) return 0;
  DoseMove part = dose_;
  part.mg_l = mg_l;
  const double below = before_.spread_after(*dose_.goal, part).chance_below(*far);
  return falls ? below : 1 - below;
}

}  // namespace tub::planning
