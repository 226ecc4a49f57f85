#include "planning/steps/plan_steps.h"

#include <algorithm>
#include <cmath>

#include "chemistry/gas.h"
#include "planning/goals/floater.h"
#include "planning/pours/divisions.h"
#include "planning/pours/pouring.h"
#include "planning/retests/retest.h"

namespace tub::planning {
namespace {

/// What later steps take back is said from this share of a division on.
constexpr double worth_saying = 0.25;
constexpr double hours_a_day = 24;

/// Builds the steps in order, the water beside them.
class Rungs {
 public:
  Rungs(const Situation& situation, const Draft& draft)
      : situation_(situation),
        draft_(draft),
        water_(situation.start.water),
        airy_(situation.start.water),
        interrupted_(situation.resumption() != nullptr ? situation.resumption()->interrupted
                                                       : std::nullopt),
        number_(situation.resumption() != nullptr ? situation.resumption()->last_number : 0) {}

  std::vector<Step> all() {
    if (!situation_.request.water_is_in_tub) {
      steps_.push_back({FillVessel{}, 1});
      number_ = 1;
    }
    if (situation_.refill.fraction > 0) add_refill();
    for (index_ = 0; index_ < draft_.size(); ++index_) {
      std::visit([this](const auto& move) { add(move); }, draft_[index_]);
    }
    return std::move(steps_);
  }

 private:
  /// At the fill it is part of the first rung; in a full tub it is a rung of its own.
  void add_refill() {
    number_ = situation_.request.water_is_in_tub ? number_ + 1 : 1;
    finish({Replace{situation_.refill.fraction, situation_.refill.with}, number_});
    is_refilled_ = situation_.request.water_is_in_tub;
  }

  bool is_last() const { return index_ + 1 == draft_.size(); }

  void add(const HeatMove& move) {
    // Fill and first heat share a number; the last heat has its own.
    if (steps_.empty() || is_last() || is_refilled_) ++number_;
    is_refilled_ = false;
    Step step{Heat{move.to_c}, number_};
    pass(move);
    if (is_last()) set_gate(step);
    finish(std::move(step));
  }

  /// The next number; what is left of an interrupted step keeps its own.
  void take_number(const DoseMove& dose) {
    const bool goes_on = interrupted_ && interrupted_->product == dose.supply->product().id &&
                         interrupted_->reading == dose.goal;
    if (!goes_on) ++number_;
    interrupted_.reset();
  }

  void add(const DoseMove& dose) {
    take_number(dose);
    const Water before = airy_;
    Addition addition = addition_of(dose);
    Step step{FillVessel{}, number_};
    if (!dose.goal) {
      untested(addition, step, dose);
      pass(dose);
    } else {
      const Limits band = set_accept(step, *dose.goal);
      set_expectations(addition, dose);
      set_conditions(addition, step, *dose.goal, lowers(dose));
      addition.overshoot_chance = Overshoot(situation_, {draft_, index_, band})(first_mg_l(dose));
      step.outcomes = dose.pours->days > 0 ? outcomes_of_floater(*dose.goal)
                                           : outcomes_of_pours(*dose.goal, lowers(dose));
      pass(dose);
      note_what_is_taken_back(step, *dose.goal);
      note_tablets(step, dose);
    }
    if (dose.pours->is_fine) step.notes.push_back({"too_fine_to_measure", {{"scale_g", 0.1}}});
    step.what = std::move(addition);
    finish(std::move(step));
    lose_in_waits(before, dose);
  }

  /// Metal that is held is looked at; a bank of bromide shows in no test.
  void untested(Addition& addition, Step& step, const DoseMove& dose) const {
    if (dose.supply->product().can(Purpose::bromide_bank)) {
      addition.reading = situation_.sanitizer.reading;
      return;
    }
    step.test_is_clarity = true;
    step.outcomes = clarity_outcomes();
  }

  /// What stays in the floater; or that tablets, once bought, keep up what another product has
  /// made.
  void note_tablets(Step& step, const DoseMove& dose) const {
    const SanitizerRow& row = situation_.sanitizer;
    const Pours& pours = *dose.pours;
    if (pours.days > 0) {
      step.notes.push_back({"floater",
                            {{"tablets", pours.amounts.front().measure.front().count},
                             {"hours", pours.days * hours_a_day},
                             {"dissolves_g", situation_.size(*dose.supply, dose.mg_l)}}});
    } else if (dose.goal == row.reading && !row.at_once.empty() &&
               situation_.first_of(row.products) == nullptr) {
      step.notes.push_back({"tablets_keep_it_up", {{"product", row.products.front()}}});
    }
  }

  void add(const FloaterMove& move) {
    Step step = floater_step(situation_, move);
    step.number = ++number_;
    finish(std::move(step));
  }

  void add(const ReleaseMove& release) {
    ++number_;
    Step step{released(water_, release), number_};
    pass(release);
    set_accept(step, Reading::ph);
    step.outcomes = outcomes_of_release(std::get<ReleaseCarbonDioxide>(step.what).jets_hours.low);
    airy_ = water_;
    finish(std::move(step));
  }

  void add(const RoundsMove& rounds) {
    take_number(rounds.dose);
    const Goal* goal = situation_.goal(*rounds.dose.goal);
    Repeat repeat;
    repeat.times = rounds.times;
    repeat.at_most = most_turns(rounds);
    repeat.steps = turn(rounds);
    pass(rounds);
    airy_ = water_;
    Step step{FillVessel{}, number_};
    set_accept(step, *rounds.dose.goal);
    const auto found = step.accept.find(*rounds.dose.goal);
    const Limits accept = found == step.accept.end() ? Limits{} : found->second;
    repeat.until = {*rounds.dose.goal, Condition::Side::below,
                    accept.high.value_or(goal->band.high.value_or(0))};
    step.outcomes = outcomes_of_pours(*rounds.dose.goal, true);
    step.what = std::move(repeat);
    finish(std::move(step));
  }

  /// The two steps of one turn, as they are the first time.
  std::vector<Step> turn(const RoundsMove& rounds) {
    Addition addition = addition_of(rounds.dose);
    Step add_acid{FillVessel{}, number_};
    add_acid.test = Reading::ph;
    Draft until(draft_.begin(), draft_.begin() + static_cast<std::ptrdiff_t>(index_));
    DoseMove part = rounds.dose;
    part.mg_l = 0;
    for (std::size_t i = 0; i < addition.portions.size(); ++i) {
      part.mg_l += mg_l_of(rounds.dose, i);
      until.emplace_back(part);
      addition.portions[i].expect[Reading::ph] =
          expected(situation_.request.retest_with, Reading::ph,
                   situation_.uncertainty().spread(Reading::ph, until), 0);
      until.pop_back();
      if (i > 0) {
        addition.portions[i].only_if =
            Condition{Reading::ph, Condition::Side::above, lowest_for_acid()};
      }
    }
    const Water acid = situation_.bench.after(water_, rounds.dose);
    add_acid.what = std::move(addition);
    Step release{released(acid, rounds.release), number_};
    const double ph = situation_.bench.ph(situation_.bench.after(acid, rounds.release));
    set_accept_within(release, ph);
    release.outcomes =
        outcomes_of_release(std::get<ReleaseCarbonDioxide>(release.what).jets_hours.low);
    std::vector<Step> steps;
    steps.push_back(std::move(add_acid));
    steps.push_back(std::move(release));
    return steps;
  }

  /// The pH of the pour window's lower end, as the retest shows it.
  double lowest_for_acid() const {
    const double low = situation_.assumptions.pour_ph.low;
    const auto row = situation_.request.retest_with.rows.find(Reading::ph);
    return row == situation_.request.retest_with.rows.end()
               ? low
               : division_up(low, row->second.division);
  }

  /// In a turn the jets run until pH is back, to what the test can tell.
  void set_accept_within(Step& step, double ph) {
    const auto row = situation_.request.retest_with.rows.find(Reading::ph);
    const double about =
        row == situation_.request.retest_with.rows.end() ? 0.1 : row->second.division;
    const AcceptedBand band =
        accepted(situation_.request.retest_with, Reading::ph, {ph - about, ph + about});
    step.test = Reading::ph;
    step.test_too_coarse = band.is_too_coarse;
    step.accept[Reading::ph] = band.limits;
  }

  /// Turns if alkalinity starts at the high end of its range and the tub is at its largest.
  int most_turns(const RoundsMove& rounds) const {
    const Reading reading = *rounds.dose.goal;
    const double before = situation_.bench.reading(reading, water_);
    const double after =
        situation_.bench.reading(reading, situation_.bench.after(water_, Move{rounds}));
    const std::span<const Move> so_far = std::span<const Move>(draft_).first(index_);
    const Interval start = situation_.uncertainty().spread(reading, so_far).interval();
    const double each = (before - after) / rounds.times;
    const double least = each / (1 + situation_.request.tub.volume_give_or_take);
    const int needed = static_cast<int>(std::ceil((start.high - after) / least - 1e-9));
    return std::max(rounds.times, needed);
  }

  ReleaseCarbonDioxide released(const Water& from, const ReleaseMove& move) const {
    return {move.to_log10_pco2_atm, jets_hours(from, move.to_log10_pco2_atm, situation_.bench)};
  }

  Addition addition_of(const DoseMove& dose) const {
    const Product& product = dose.supply->product();
    const bool is_liquid = product.form == Form::liquid;
    Addition addition;
    addition.product = product.id;
    addition.reading = dose.goal;
    double size = 0;
    for (const Measuring::Amount& pour : dose.pours->amounts) {
      Portion portion;
      (is_liquid ? portion.amount_ml : portion.amount_g) = pour.size;
      portion.measure = pour.measure;
      portion.wait_minutes = dose.pours->days > 0 ? dose.pours->days * hours_a_day * 60
                                                  : situation_.assumptions.wait_minutes.value;
      addition.portions.push_back(portion);
      size += pour.size;
    }
    (is_liquid ? addition.amount_ml : addition.amount_g) = size;
    const double dissolved = dose.pours->days > 0 ? situation_.size(*dose.supply, dose.mg_l) : size;
    const double grams = dissolved * dose.supply->mg_per_size() * 1e-3;
    for (const Product::Part& part : product.parts) {
      addition.adds_g[part.formula] += grams * part.mass_fraction;
    }
    const double spent = spent_by(dose);
    if (spent > 0) addition.spends[std::string(key_of(*dose.goal))] = spent;
    return addition;
  }

  /// A demand takes no more than there is.
  double spent_by(const DoseMove& dose) const {
    if (dose.spent_mg_l(dose.mg_l) <= 0) return 0;
    const Water dosed = dose.supply->add_to(water_, dose.mg_l);
    return std::min(dose.spent_mg_l(dose.mg_l), situation_.bench.reading(*dose.goal, dosed));
  }

  double mg_l_of(const DoseMove& dose, std::size_t pour) const {
    if (dose.pours->days > 0) return dose.mg_l;
    return situation_.mg_l(*dose.supply, dose.pours->amounts.at(pour).size);
  }
  double first_mg_l(const DoseMove& dose) const { return mg_l_of(dose, 0); }

  Limits set_accept(Step& step, Reading reading) const {
    const Limits band = band_at(situation_, draft_, index_);
    const AcceptedBand rounded = accepted(situation_.request.retest_with, reading, band);
    const Goal* const goal = situation_.goal(reading);
    const bool is_told_nothing = goal != nullptr && goal->band.high && !band.high && !band.low;
    step.test = reading;
    step.test_too_coarse = rounded.is_too_coarse || is_told_nothing;
    if (!is_told_nothing) step.accept[reading] = rounded.limits;
    return band;
  }

  void set_gate(Step& step) const {
    for (const auto& [reading, range] : situation_.gate.readings) {
      const AcceptedBand rounded =
          accepted(situation_.request.retest_with, reading, limits_of(range));
      step.test_too_coarse = step.test_too_coarse || rounded.is_too_coarse;
      step.accept[reading] = rounded.limits;
    }
    step.outcomes = outcomes_of_gate(step.accept);
  }

  /// Pours, waits and carbon dioxide lost in them, one after the other.
  void set_expectations(Addition& addition, const DoseMove& dose) const {
    double mg_l = 0;
    Water airy = airy_;
    for (std::size_t i = 0; i < addition.portions.size(); ++i) {
      mg_l += mg_l_of(dose, i);
      const Draft until = until_poured(draft_, index_, mg_l);
      double also_higher = 0;
      if (dose.goal == Reading::ph) {
        airy = after_wait(dose.supply->add_to(airy, mg_l_of(dose, i)));
        const double closed = situation_.bench.reading(
            Reading::ph, situation_.bench.after(situation_.start.water, until));
        also_higher = std::max(0.0, situation_.bench.ph(airy) - closed);
      }
      addition.portions[i].expect[*dose.goal] =
          expected(situation_.request.retest_with, *dose.goal,
                   situation_.uncertainty().spread(*dose.goal, until), also_higher);
    }
  }

  static void set_conditions(Addition& addition, const Step& step, Reading reading, bool falls) {
    const auto accept = step.accept.find(reading);
    if (accept == step.accept.end()) return;
    for (std::size_t i = 1; i < addition.portions.size(); ++i) {
      const std::optional<double> edge = falls ? accept->second.high : accept->second.low;
      if (!edge) continue;
      addition.portions[i].only_if =
          Condition{reading, falls ? Condition::Side::above : Condition::Side::below, *edge};
    }
  }

  /// The surplus of carbon dioxide that a wait may lose.
  Water after_wait(const Water& water) const {
    const SpeciesTable& species = situation_.bench.species();
    const double surplus =
        carbon_surplus(water, species.gas_exchange().air_log10_pco2_atm, species);
    Water later = water;
    later.totals[Component::carbonate] -=
        surplus * situation_.assumptions.carbon_dioxide_lost_per_wait.high;
    return later;
  }

  void lose_in_waits(const Water& before, const DoseMove& dose) {
    airy_ = before;
    for (std::size_t i = 0; i < dose.pours->amounts.size(); ++i) {
      airy_ = after_wait(dose.supply->add_to(airy_, mg_l_of(dose, i)));
    }
  }

  template <class SomeMove>
  void pass(const SomeMove& move) {
    water_ = situation_.bench.after(water_, Move{move});
    if (std::is_same_v<SomeMove, HeatMove>) airy_ = situation_.bench.after(airy_, Move{move});
  }

  void note_what_is_taken_back(Step& step, Reading reading) const {
    if (reading == Reading::ph) return;
    const auto row = situation_.request.retest_with.rows.find(reading);
    if (row == situation_.request.retest_with.rows.end()) return;
    Water water = water_;
    int number = number_;
    for (std::size_t i = index_ + 1; i < draft_.size(); ++i) {
      const double before = situation_.bench.reading(reading, water);
      water = situation_.bench.after(water, draft_[i]);
      const double change = situation_.bench.reading(reading, water) - before;
      if (!std::holds_alternative<HeatMove>(draft_[i])) ++number;
      const auto* dose = std::get_if<DoseMove>(&draft_[i]);
      if (dose != nullptr && dose->goal == reading) return;
      if (std::abs(change) < worth_saying * row->second.division) continue;
      step.notes.push_back({"later_step_moves_it",
                            {{"step", static_cast<double>(number)},
                             {"reading", std::string(key_of(reading))},
                             {"change", change}}});
    }
  }

  static std::vector<TestOutcome> clarity_outcomes() {
    TestOutcome clear;
    clear.is_clarity = true;
    TestOutcome cloudy = clear;
    cloudy.when = TestOutcome::When::over;
    cloudy.action = TestOutcome::Action::stop_and_call;
    return {clear, cloudy};
  }

  void finish(Step step) {
    step.after = situation_.bench.state(water_);
    steps_.push_back(std::move(step));
  }

  const Situation& situation_;
  const Draft& draft_;
  Water water_;
  Water airy_;  // the same with some of its carbon dioxide lost in every wait
  std::size_t index_ = 0;
  std::optional<InterruptedStep> interrupted_;
  int number_ = 0;
  bool is_refilled_ = false;  // by the last step, on a rung of its own
  std::vector<Step> steps_;
};

}  // namespace

std::vector<Step> steps_of(const Situation& situation, const Draft& draft) {
  return Rungs(situation, draft).all();
}

}  // namespace tub::planning
