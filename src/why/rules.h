// The one table of what explains which numbers of a plan.
#pragma once

#include <string>

#include "why/asking.h"

namespace tub::why {

/// How the numbers of some pointers came about.
struct Rule {
  std::string pattern;  ///< "*" is any step; of a step's numbers without the step's own pointer
  bool is_of_step = false;
  Node (*explain)(Asking&, const Place&) = nullptr;  ///< identifier and value are put in later
  std::string name{};  ///< of the node; empty: the last step of the pointer
};

/// Null if there is none.
const Rule* rule_for(const Place& place);

// The rules by what they are about, one file each.
Node explain_version(Asking& asking, const Place& place);
Node explain_volume(Asking& asking, const Place& place);
Node explain_volume_error(Asking& asking, const Place& place);
Node explain_target(Asking& asking, const Place& place);
Node explain_gate(Asking& asking, const Place& place);
Node explain_gate_closed(Asking& asking, const Place& place);
Node explain_caution(Asking& asking, const Place& place);
/// A metal's limit: a row of assumptions.json.
Node metal_limit(Asking& asking, const Place& place, Reading reading);
Node explain_held(Asking& asking, const Place& place);
Node explain_water(Asking& asking, const Place& place);

Node explain_rung(Asking& asking, const Place& place);
Node explain_temperature(Asking& asking, const Place& place);
Node explain_turns(Asking& asking, const Place& place);
Node explain_most_turns(Asking& asking, const Place& place);
Node explain_release(Asking& asking, const Place& place);
Node explain_jets(Asking& asking, const Place& place);
Node explain_fraction(Asking& asking, const Place& place);
Node explain_note(Asking& asking, const Place& place);
Node explain_wait(Asking& asking, const Place& place);

Node explain_amount(Asking& asking, const Place& place);
Node explain_compound(Asking& asking, const Place& place);
Node explain_spending(Asking& asking, const Place& place);
Node explain_pour(Asking& asking, const Place& place);
Node explain_count(Asking& asking, const Place& place);

Node explain_expected(Asking& asking, const Place& place);
Node explain_accepted(Asking& asking, const Place& place);
Node explain_edge(Asking& asking, const Place& place);
Node explain_overshoot(Asking& asking, const Place& place);
Node explain_hours_of_outcome(Asking& asking, const Place& place);

Node explain_final_range(Asking& asking, const Place& place);
Node explain_drift(Asking& asking, const Place& place);
Node explain_unmet(Asking& asking, const Place& place);
Node explain_remedy(Asking& asking, const Place& place);
Node explain_active(Asking& asking, const Place& place);
Node explain_hand_over(Asking& asking, const Place& place);
Node explain_hazard(Asking& asking, const Place& place);
Node explain_assumed(Asking& asking, const Place& place);

/// A node that is the same as another.
Node same_as(Asking& asking, const std::string& node);

}  // namespace tub::why
