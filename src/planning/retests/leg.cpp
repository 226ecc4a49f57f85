#include "planning/retests/leg.h"

#include <fmt/format.h>

#include "base/error.h"
#include "planning/pours/measured_draft.h"
#include "planning/steps/plan_steps.h"
#include "planning/steps/waits.h"

namespace tub::planning {
namespace {

std::vector<Step> waiting_steps(const Situation& situation, const Draft& draft) {
  std::vector<Step> steps = steps_of(situation, draft);
  wait_for_partners(steps, dangerous_pairs(situation.request.shelf, situation.data.hazard_rules));
  return steps;
}

[[noreturn]] void refuse(const RetestReport& report, const char* field, std::string message,
                         std::string help) {
  throw Error({std::move(message),
               report.where + field,
               {"finding where the water was tested"},
               std::move(help)});
}

/// The last step of that number.
std::optional<std::size_t> step_numbered(int number, const std::vector<Step>& steps) {
  for (std::size_t i = steps.size(); i-- > 0;) {
    if (steps[i].number == number) return i;
  }
  return std::nullopt;
}

[[noreturn]] void refuse_step(const RetestReport& report, const Leg& leg) {
  const int last = leg.steps.back().number;
  const int done = leg.last_number_done();
  const int first = done > 0 ? done + 1 : leg.steps.front().number;
  if (*report.after_step < done) {
    refuse(report, "/after_step",
           fmt::format("step {} is behind: an earlier reading was taken after step {}",
                       *report.after_step, done),
           "put the readings in the order in which they were taken");
  }
  refuse(report, "/after_step",
         fmt::format("there is no step {} in this plan: its steps are {} to {}", *report.after_step,
                     first, last),
         "write the number that is printed on the rung after which the water was tested");
}

void refuse_round(const RetestReport& report, const Step& step) {
  if (std::holds_alternative<Repeat>(step.what) || !report.after_round) return;
  refuse(report, "/after_round", fmt::format("step {} is not done in rounds", step.number),
         "remove after_round");
}

const Addition& addition_of_round(const Repeat& repeat) {
  return std::get<Addition>(repeat.steps.front().what);
}

int pours_of(const RetestReport& report, const Step& step, const Addition& addition, int before) {
  const int all = before + static_cast<int>(addition.portions.size());
  const int pours = report.after_pour.value_or(all);
  if (pours > all) {
    refuse(report, "/after_pour",
           fmt::format("step {} has no pour {}: it is poured in {}", step.number, pours,
                       all == 1 ? "one" : std::to_string(all)),
           "remove after_pour, or write the pour after which the water was tested");
  }
  return pours - before;
}

PlaceInPlan in_repeat(const RetestReport& report, const Step& step, const Repeat& repeat,
                      PlaceInPlan place, int before) {
  const int rounds = report.after_round.value_or(before + repeat.times);
  if (rounds > before + repeat.at_most) {
    refuse(report, "/after_round",
           fmt::format("step {} is repeated at most {} times, found round {}", step.number,
                       before + repeat.at_most, rounds),
           "count the rounds again; where more are needed the card says to call");
  }
  place.rounds = rounds - before;
  if (!report.after_pour) return place;
  place.pours = pours_of(report, step, addition_of_round(repeat), 0);
  place.rounds = *place.rounds - 1;
  return place;
}

template <class T>
T sum_of(const std::vector<Portion>& portions, std::optional<double> Portion::*size) {
  T sum;
  for (const Portion& portion : portions) {
    if (portion.*size) sum = sum.value_or(0) + *(portion.*size);
  }
  return sum;
}

Addition first_pours(Addition addition, int pours) {
  const double whole = addition.amount_g.value_or(addition.amount_ml.value_or(0));
  addition.portions.resize(static_cast<std::size_t>(pours));
  addition.amount_g = sum_of<std::optional<double>>(addition.portions, &Portion::amount_g);
  addition.amount_ml = sum_of<std::optional<double>>(addition.portions, &Portion::amount_ml);
  const double part = addition.amount_g.value_or(addition.amount_ml.value_or(0));
  for (auto& [formula, grams] : addition.adds_g) grams *= part / whole;
  return addition;
}

}  // namespace

Leg::Leg(PlanRequest a_request, const PlanningData& data, const SpeciesTable& species)
    : request(std::move(a_request)),
      waters(waters_of(request, data, species)),
      refill(best_refill(request, data, species, waters)),
      situation(request, data, species, refilled(waters, refill, data, species), refill),
      draft(measured_draft(situation)),
      steps(waiting_steps(situation, draft)) {}

const Water* Leg::other_water(const Step& step) const {
  const bool is_there = std::holds_alternative<Replace>(step.what) && waters.second;
  return is_there ? &waters.second->water : nullptr;
}

int Leg::last_number_done() const {
  return situation.resumption() == nullptr ? 0 : situation.resumption()->last_number;
}

std::optional<InterruptedStep> Leg::continued_by(const Step& step) const {
  const Resumption* const resumption = situation.resumption();
  if (resumption == nullptr || !resumption->interrupted) return std::nullopt;
  if (step.number != resumption->last_number) return std::nullopt;
  return resumption->interrupted;
}

std::optional<PlaceInPlan> place_of(const RetestReport& report, const Leg& leg) {
  const auto found = step_numbered(*report.after_step, leg.steps);
  if (!found) {
    if (*report.after_step == leg.last_number_done()) return std::nullopt;
    refuse_step(report, leg);
  }
  const Step& step = leg.steps[*found];
  const InterruptedStep before = leg.continued_by(step).value_or(InterruptedStep{});
  refuse_round(report, step);
  PlaceInPlan place{*found, {}, {}};
  if (const auto* repeat = std::get_if<Repeat>(&step.what)) {
    place = in_repeat(report, step, *repeat, place, before.rounds_done);
    if (*place.rounds < 0 || (*place.rounds == 0 && !place.pours)) return std::nullopt;
  } else if (const auto* addition = std::get_if<Addition>(&step.what)) {
    place.pours = pours_of(report, step, *addition, before.pours_done);
    if (*place.pours <= 0) return std::nullopt;
  } else if (report.after_pour) {
    refuse(report, "/after_pour", fmt::format("nothing is poured in step {}", step.number),
           "remove after_pour");
  }
  return place;
}

PlaceInPlan end_of(const Leg& leg) {
  PlaceInPlan place{leg.steps.size() - 1, {}, {}};
  if (const auto* repeat = std::get_if<Repeat>(&leg.steps.back().what)) {
    place.rounds = repeat->times;
  }
  return place;
}

Step done_part(const Step& step, const PlaceInPlan& place) {
  Step done = step;
  if (auto* repeat = std::get_if<Repeat>(&done.what)) {
    repeat->times = place.rounds.value_or(repeat->times);
  }
  auto* addition = std::get_if<Addition>(&done.what);
  if (addition != nullptr && place.pours) *addition = first_pours(*addition, *place.pours);
  return done;
}

bool is_interrupted(const Step& step, const PlaceInPlan& place) {
  if (const auto* repeat = std::get_if<Repeat>(&step.what)) {
    return place.pours || place.rounds.value_or(repeat->times) < repeat->at_most;
  }
  const auto* addition = std::get_if<Addition>(&step.what);
  return addition != nullptr && place.pours &&
         *place.pours < static_cast<int>(addition->portions.size());
}

}  // namespace tub::planning
