#include "planning/retests/replan.h"

#include <algorithm>
#include <cmath>
#include <memory>

#include "base/error.h"
#include "chemistry/measures.h"
#include "planning/retests/judged_water.h"
#include "planning/retests/leg.h"
#include "planning/retests/likely_reason.h"
#include "planning/steps/waits.h"

namespace tub::planning {
namespace {

/// Readings that nothing of the plan foretells: what is found counts.
constexpr std::array<std::pair<Reading, Component>, 3> metals = {{
    {Reading::copper, Component::copper},
    {Reading::iron, Component::iron},
    {Reading::manganese, Component::manganese},
}};

FoundReading found_by(const RetestReport& report, Reading reading, const MeasuredReading& one) {
  FoundReading found;
  found.after_step = report.after_step;
  found.after_pour = report.after_pour;
  found.after_round = report.after_round;
  found.date = report.date;
  found.reading = reading;
  found.found = one.value;
  found.tested_with = one.method;
  return found;
}

const MeasuredReading* reading_of(const RetestReport& report, Reading reading) {
  const auto found = report.readings.find(std::string(key_of(reading)));
  return found == report.readings.end() ? nullptr : &found->second;
}

/// Makes plan after plan, each from what the retests before it found.
class Replanning {
 public:
  Replanning(const PlanRequest& request, const PlanningData& data, const SpeciesTable& species)
      : data_(data), species_(species) {
    PlanRequest first = request;
    first.retests.clear();
    start_from(std::move(first));
  }

  void take(const RetestReport& report) {
    std::optional<PlaceInPlan> place =
        report.is_visit() ? std::optional(end_of(*leg_)) : place_of(report, *leg_);
    if (place) advance(*place);
    if (report.is_visit()) {
      visit(report);
    } else {
      retest(report);
    }
  }

  Plan plan() const {
    Plan plan = make_plan(leg_->request, data_, species_);
    plan.done = done_;
    plan.found = found_;
    wait_for_what_is_done(plan);
    return plan;
  }

  std::shared_ptr<const Leg> leg() const { return leg_; }

 private:
  /// A water by its readings, with nothing done to it: everything begins here.
  void start_from(PlanRequest request) {
    base_ = std::make_shared<const Leg>(std::move(request), data_, species_);
    leg_ = base_;
    evidence_ = std::make_unique<Evidence>(base_->situation);
    aims_.clear();
    is_floater_in_ = false;
    last_number_ = leg_->last_number_done();
    interrupted_.reset();
  }

  void advance(const PlaceInPlan& place) {
    remember_aims();
    evidence_->begin_stretch();
    for (std::size_t i = 0; i <= place.step; ++i) {
      const bool is_last = i == place.step;
      const Step& step = leg_->steps[i];
      done_.push_back(is_last ? done_part(step, place) : step);
      const std::size_t before = leg_->steps_before_moves();
      // The first plan's own water has the other one in it already.
      const Water* const other = leg_->other_water(step);
      if (other != nullptr && leg_ != base_) {
        evidence_->history().mix(*other, leg_->refill.fraction);
      }
      if (i >= before) pass(leg_->draft[i - before], is_last ? place : PlaceInPlan{});
    }
    const Step& last = leg_->steps[place.step];
    last_number_ = last.number;
    interrupted_ =
        is_interrupted(last, place) ? std::optional(interruption(last, place)) : std::nullopt;
    if (interrupted_) done_.back().after = after_part(place);
  }

  /// What the plan foretold of a step that is done in part.
  WaterState after_part(const PlaceInPlan& place) const {
    const std::size_t index = place.step - leg_->steps_before_moves();
    Draft until(leg_->draft.begin(), leg_->draft.begin() + static_cast<std::ptrdiff_t>(index));
    DoseMove part;
    if (const auto* rounds = std::get_if<RoundsMove>(&leg_->draft.at(index))) {
      RoundsMove some = *rounds;
      some.times = place.rounds.value_or(0);
      if (some.times > 0) until.emplace_back(some);
      part = rounds->dose;
    } else {
      part = std::get<DoseMove>(leg_->draft.at(index));
    }
    part.mg_l = 0;
    for (int i = 0; i < place.pours.value_or(0); ++i) {
      const double size = part.pours->amounts.at(static_cast<std::size_t>(i)).size;
      part.mg_l += leg_->situation.mg_l(*part.supply, size);
    }
    if (part.mg_l > 0) until.emplace_back(part);
    return leg_->situation.final_state(until);
  }

  InterruptedStep interruption(const Step& step, const PlaceInPlan& place) const {
    InterruptedStep result = leg_->continued_by(step).value_or(InterruptedStep{});
    const auto* repeat = std::get_if<Repeat>(&step.what);
    const Addition& addition = repeat != nullptr ? std::get<Addition>(repeat->steps.front().what)
                                                 : std::get<Addition>(step.what);
    result.product = addition.product;
    result.reading = addition.reading;
    if (repeat != nullptr) {
      result.rounds_done += place.rounds.value_or(repeat->times);
      result.reading = std::get<RoundsMove>(move_of(step)).dose.goal;
    } else {
      result.pours_done += place.pours.value_or(0);
    }
    return result;
  }

  const Move& move_of(const Step& step) const {
    const auto index = static_cast<std::size_t>(&step - leg_->steps.data());
    return leg_->draft.at(index - leg_->steps_before_moves());
  }

  void remember_aims() {
    const WaterState final = leg_->situation.final_state(leg_->draft);
    const auto remember = [&](Reading reading) {
      aims_.emplace(reading, value_of(reading, final));
    };
    for (const Move& move : leg_->draft) {
      if (const auto* dose = std::get_if<DoseMove>(&move); dose != nullptr && dose->goal) {
        remember(*dose->goal);
      }
      if (const auto* rounds = std::get_if<RoundsMove>(&move)) remember(*rounds->dose.goal);
      const bool releases =
          std::holds_alternative<ReleaseMove>(move) || std::holds_alternative<RoundsMove>(move);
      if (releases) remember(Reading::ph);
    }
  }

  std::size_t index_of(const Supply& supply) const {
    return static_cast<std::size_t>(&supply - leg_->situation.supplies().data());
  }

  /// What the leg's mg/L are at the volume that the evidence counts with.
  double at_stated_volume(double mg_l) const {
    return mg_l * leg_->request.tub.volume_l / base_->request.tub.volume_l;
  }

  void pour(const DoseMove& dose, std::optional<int> pours) {
    const auto& amounts = dose.pours->amounts;
    const auto count = static_cast<std::size_t>(pours.value_or(static_cast<int>(amounts.size())));
    for (std::size_t i = 0; i < count; ++i) {
      DoseMove one = dose;
      one.mg_l = at_stated_volume(leg_->situation.mg_l(*dose.supply, amounts.at(i).size));
      if (i > 0) one.spends_mg_l = 0;
      evidence_->history().pour(index_of(*dose.supply), std::move(one));
    }
  }

  void pass(const Move& move, const PlaceInPlan& place) {
    if (const auto* dose = std::get_if<DoseMove>(&move)) return pour(*dose, place.pours);
    if (std::holds_alternative<FloaterMove>(move)) is_floater_in_ = true;
    const auto* rounds = std::get_if<RoundsMove>(&move);
    if (rounds == nullptr) return evidence_->history().pass(move);
    RoundsMove done = *rounds;
    done.times = place.rounds.value_or(rounds->times);
    done.dose.supply = &base_->situation.supplies().at(index_of(*rounds->dose.supply));
    done.dose.mg_l = at_stated_volume(rounds->dose.mg_l);
    if (done.times > 0) evidence_->history().pass(Move{done});
    if (place.pours) pour(rounds->dose, place.pours);
  }

  void retest(const RetestReport& report) {
    if (report.temperature_c) evidence_->history().pass(HeatMove{*report.temperature_c});
    compare(report);
    take_what_counts(report);
    leg_ = std::make_shared<const Leg>(next_request(), data_, species_);
  }

  /// Readings beside what is foretold of them, and the reason where they are far off.
  void compare(const RetestReport& report) {
    std::vector<Reading> readings;
    for (const Reading reading : foretold_readings) {
      if (reading_of(report, reading) != nullptr) readings.push_back(reading);
    }
    if (readings.empty()) return;
    const std::vector<Forecast> forecasts = evidence_->forecast(readings);
    std::vector<ComparedReading> compared;
    std::vector<FoundReading> found;
    for (std::size_t i = 0; i < readings.size(); ++i) {
      const MeasuredReading& one = *reading_of(report, readings[i]);
      const double test = test_half_width(data_, readings[i], one, forecasts[i].value) / z_90;
      const double below = std::hypot(forecasts[i].deviation_below, test);
      const double above = std::hypot(forecasts[i].deviation_above, test);
      compared.push_back({evidence_->count(), one.value, forecasts[i].value,
                          one.value < forecasts[i].value ? below : above});
      found.push_back(found_by(report, readings[i], one));
      found.back().expected = expected_interval(readings[i], forecasts[i].value, below, above);
      found.back().deviations = compared.back().deviations();
      evidence_->found(readings[i], one.value, test);
    }
    say_reason(compared, found);
    found_.insert(found_.end(), found.begin(), found.end());
  }

  void say_reason(const std::vector<ComparedReading>& compared, std::vector<FoundReading>& found) {
    const bool is_any_said = std::any_of(compared.begin(), compared.end(),
                                         [](const ComparedReading& one) { return one.is_said(); });
    if (!is_any_said) return;
    const LikelyReason likely = likely_reason(base_->situation, *evidence_, compared);
    if (likely.source) evidence_->give_up(*likely.source);
    for (std::size_t i = 0; i < found.size(); ++i) {
      if (compared[i].is_said()) found[i].likely = likely.reason;
    }
  }

  void take_what_counts(const RetestReport& report) {
    for (const auto& [reading, component] : metals) {
      const MeasuredReading* const one = reading_of(report, reading);
      if (one == nullptr) continue;
      const double per_mg_l = 1 / (grams_per_mole(component) * 1e3);
      const double test = test_half_width(data_, reading, *one, one->value) / z_90;
      evidence_->found_total(component, one->value * per_mg_l, test * per_mg_l);
      found_.push_back(found_by(report, reading, *one));
    }
  }

  PlanRequest next_request() const {
    const Estimate estimate = evidence_->estimate();
    const JudgedTub judged = judged_tub(base_->request, base_->situation, *evidence_, estimate);
    PlanRequest request = judged.request;
    Resumption resumption;
    resumption.start = judged.start;
    add_measured(resumption.start);
    resumption.last_number = last_number_;
    resumption.interrupted = interrupted_;
    resumption.aims = aims_;
    resumption.demand_is_met = evidence_->history().has_met_demand() || was_demand_met_;
    resumption.metals_are_held = evidence_->history().has_held_metals() || were_metals_held_;
    resumption.floater_is_in = is_floater_in_;
    request.resumption = std::make_shared<const Resumption>(std::move(resumption));
    return request;
  }

  void add_measured(StartWater& start) const {
    for (const FoundReading& found : found_) {
      const std::string key(key_of(found.reading));
      if (std::find(start.measured.begin(), start.measured.end(), key) == start.measured.end()) {
        start.measured.push_back(key);
      }
    }
  }

  /// The water is what was found; what was not tested is as the plan left it.
  void visit(const RetestReport& report) {
    for (const auto& [key, one] : report.readings) {
      if (const auto reading = reading_named(key)) {
        found_.push_back(found_by(report, *reading, one));
      }
    }
    PlanRequest request = next_request();
    Resumption resumption = *request.resumption;
    resumption.start = visited_water(report, leg_->situation, resumption.start, data_);
    resumption.interrupted.reset();
    resumption.aims.clear();
    // Weeks later it is empty.
    resumption.floater_is_in = false;
    was_demand_met_ = resumption.demand_is_met;
    were_metals_held_ = resumption.metals_are_held;
    request.resumption = std::make_shared<const Resumption>(std::move(resumption));
    start_from(std::move(request));
  }

  /// A product that is done keeps its distance from those that follow.
  void wait_for_what_is_done(Plan& plan) const {
    std::vector<Step> all = plan.done;
    all.insert(all.end(), plan.steps.begin(), plan.steps.end());
    wait_for_partners(all, plan.hazards);
    const auto first = all.begin() + static_cast<std::ptrdiff_t>(plan.done.size());
    plan.steps.assign(first, all.end());
    for (std::size_t i = 0; i < plan.done.size(); ++i) {
      const std::size_t known = plan.done[i].notes.size();
      for (std::size_t k = known; k < all[i].notes.size(); ++k) note_wait(plan, all[i].notes[k]);
    }
  }

  /// On the rung that has to wait, since the one before it is not printed again.
  static void note_wait(Plan& plan, Reason reason) {
    const std::optional<double> next = reason.number("next_step");
    reason.code = "waits_before_this";
    for (Step& step : plan.steps) {
      if (step.number == next) step.notes.push_back(reason);
    }
  }

  const PlanningData& data_;
  const SpeciesTable& species_;
  std::shared_ptr<const Leg> base_;  ///< where the evidence begins
  std::shared_ptr<const Leg> leg_;   ///< the plan that is followed
  std::unique_ptr<Evidence> evidence_;
  std::vector<Step> done_;
  std::vector<FoundReading> found_;
  ByReading<double> aims_;
  int last_number_ = 0;
  std::optional<InterruptedStep> interrupted_;
  bool was_demand_met_ = false;
  bool were_metals_held_ = false;
  bool is_floater_in_ = false;
};

/// Takes every report, and says everything that is wrong with them at once.
void take_all(Replanning& replanning, const PlanRequest& request) {
  Problems problems;
  for (const RetestReport& report : request.retests) {
    try {
      replanning.take(report);
    } catch (const Error& error) {
      for (Diagnostic found : error.diagnostics()) {
        if (found.where.empty()) found.where = report.where;
        problems.add(std::move(found));
      }
    }
  }
  problems.throw_if_any();
}

}  // namespace

Plan replanned(const PlanRequest& request, const PlanningData& data, const SpeciesTable& species) {
  Replanning replanning(request, data, species);
  take_all(replanning, request);
  return replanning.plan();
}

std::shared_ptr<const Leg> leg_to_do(const PlanRequest& request, const PlanningData& data,
                                     const SpeciesTable& species) {
  Replanning replanning(request, data, species);
  take_all(replanning, request);
  return replanning.leg();
}

}  // namespace tub::planning
