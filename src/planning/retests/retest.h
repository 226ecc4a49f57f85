// What the retest at the tub can show: bands rounded inward, expectations outward, and what to do
// with each reading.
#pragma once

#include "planning/situation.h"
#include "planning/water/spread.h"

namespace tub::planning {

/// A step's band in the retest's divisions; as it is, and `is_too_coarse`, if no division lies in
/// it or the retest lacks the reading.
struct AcceptedBand {
  Limits limits;
  bool is_too_coarse = false;
};
AcceptedBand accepted(const TestMethod& retest, Reading reading, const Limits& band);

/// What the retest should show: the prediction and the test's own error, rounded outward.
/// also_higher: what may come on top (carbon dioxide lost in the waits).
Interval expected(const TestMethod& retest, Reading reading, Spread spread, double also_higher);

/// What to do with every reading that the test can show, if a product raises (or lowers) it.
std::vector<TestOutcome> outcomes_of_pours(Reading reading, bool falls);
/// The same of tablets in a floater: what is too little yet takes another day.
std::vector<TestOutcome> outcomes_of_floater(Reading reading);

/// The same for jets that raise pH: too low means longer.
std::vector<TestOutcome> outcomes_of_release(double more_hours);

/// The gate: go in, or call; too much sanitizer falls by itself.
std::vector<TestOutcome> outcomes_of_gate(const ByReading<Limits>& gate);

}  // namespace tub::planning
