#include "planning/retests/retest.h"

#include "planning/pours/divisions.h"

namespace tub::planning {
namespace {

using When = TestOutcome::When;
using Action = TestOutcome::Action;

/// Hours before too much sanitizer is tested again, cover off. Common practice, no source.
constexpr double hours_until_retest = 1;
/// Hours before tablets that have not done enough are tested for again. Assumption: they take days.
constexpr double hours_more_in_floater = 24;

bool falls_by_itself(Reading reading) {
  return reading == Reading::free_chlorine || reading == Reading::total_bromine;
}

TestOutcome outcome(Reading reading, When when, Action action) {
  TestOutcome result;
  result.reading = reading;
  result.when = when;
  result.action = action;
  return result;
}

TestOutcome too_high(Reading reading, When when) {
  if (!falls_by_itself(reading)) return outcome(reading, when, Action::stop_and_call);
  TestOutcome result = outcome(reading, when, Action::wait_and_test);
  result.hours = hours_until_retest;
  return result;
}

}  // namespace

AcceptedBand accepted(const TestMethod& retest, Reading reading, const Limits& band) {
  const auto row = retest.rows.find(reading);
  if (row == retest.rows.end()) return {band, true};
  const double division = row->second.division;
  Limits rounded;
  if (band.low) rounded.low = division_up(*band.low, division);
  if (band.high) rounded.high = division_down(*band.high, division);
  const bool is_empty = rounded.low && rounded.high && *rounded.low > *rounded.high;
  return is_empty ? AcceptedBand{band, true} : AcceptedBand{rounded, false};
}

Interval expected(const TestMethod& retest, Reading reading, Spread spread, double also_higher) {
  const auto row = retest.rows.find(reading);
  if (row != retest.rows.end()) {
    spread.add_normal(row->second.half_width_at(spread.predicted()));
  }
  // No test shows less than nothing of a concentration.
  if (reading != Reading::ph) spread.read_as_no_less_than(0);
  Interval interval = spread.interval();
  interval.high += also_higher;
  if (row == retest.rows.end()) return interval;
  interval.low = division_down(interval.low, row->second.division);
  interval.high = division_up(interval.high, row->second.division);
  return interval;
}

std::vector<TestOutcome> outcomes_of_pours(Reading reading, bool falls) {
  if (falls) {
    return {outcome(reading, When::inside, Action::skip_rest),
            outcome(reading, When::under, Action::stop_and_call),
            outcome(reading, When::over_after_all, Action::stop_and_call)};
  }
  return {outcome(reading, When::inside, Action::skip_rest), too_high(reading, When::over),
          outcome(reading, When::under_after_all, Action::stop_and_call)};
}

std::vector<TestOutcome> outcomes_of_floater(Reading reading) {
  TestOutcome longer = outcome(reading, When::under_after_all, Action::wait_and_test);
  longer.hours = hours_more_in_floater;
  return {outcome(reading, When::inside, Action::skip_rest), too_high(reading, When::over), longer};
}

std::vector<TestOutcome> outcomes_of_release(double more_hours) {
  TestOutcome longer = outcome(Reading::ph, When::under, Action::wait_and_test);
  longer.hours = more_hours;
  return {outcome(Reading::ph, When::inside, Action::skip_rest), longer,
          outcome(Reading::ph, When::over, Action::stop_and_call)};
}

std::vector<TestOutcome> outcomes_of_gate(const ByReading<Limits>& gate) {
  std::vector<TestOutcome> outcomes;
  for (const auto& [reading, limits] : gate) {
    outcomes.push_back(outcome(reading, When::inside, Action::skip_rest));
    if (limits.low) outcomes.push_back(outcome(reading, When::under, Action::stop_and_call));
    outcomes.push_back(too_high(reading, When::over));
  }
  return outcomes;
}

}  // namespace tub::planning
