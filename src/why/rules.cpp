#include "why/rules.h"

#include <algorithm>

#include "why/judged_rules.h"

namespace tub::why {
namespace {

const std::vector<Rule>& table() {
  static const std::vector<Rule> rules = {
      {"/tubwright_plan", false, explain_version},
      {"/vessel/volume_l", false, explain_volume, "volume"},
      {"/vessel/volume_give_or_take", false, explain_volume_error},
      {"/targets/readings/*/*", false, explain_target},
      {"/gate/*/*", false, explain_gate},
      {"/gate_closed/*", false, explain_gate_closed},
      {"/cautions/*/*", false, explain_caution},
      {"/start/*", false, explain_water},
      {"/second_source/*", false, explain_water},
      {"/held/*", false, explain_held},
      {"/final/*", false, explain_water},
      {"/final_range/*/*", false, explain_final_range},
      {"/active_sanitizer/*/*", false, explain_active},
      {"/hand_over/*", false, explain_hand_over},
      {"/drift/*", false, explain_drift},
      {"/unmet/*/low", false, explain_unmet},
      {"/unmet/*/high", false, explain_unmet},
      {"/unmet/*/reached", false, explain_unmet},
      {"/unmet/*/parameters/*", false, explain_unmet},
      {"/unmet/*/remedy/*", false, explain_remedy},
      {"/hazards/*/hours_apart", false, explain_hazard},
      {"/assumed/*/*", false, explain_assumed},
      {"/readings/*/*", false, explain_found},
      {"/readings/*/expected/*", false, explain_found},
      {"/readings/*/likely/*", false, explain_found},
      {"/number", true, explain_rung, "number_of_the_rung"},
      {"/to_c", true, explain_temperature, "heated_to"},
      {"/after/*", true, explain_water},
      {"/amount_g", true, explain_amount, "amount"},
      {"/amount_ml", true, explain_amount, "amount"},
      {"/adds_g/*", true, explain_compound},
      {"/spends/*", true, explain_spending, "spent"},
      {"/portions/*/amount_g", true, explain_pour, "pour"},
      {"/portions/*/amount_ml", true, explain_pour, "pour"},
      {"/portions/*/measure/*/count", true, explain_count, "count"},
      {"/portions/*/wait_minutes", true, explain_wait, "wait"},
      {"/portions/*/only_if/below", true, explain_edge, "edge"},
      {"/portions/*/only_if/above", true, explain_edge, "edge"},
      {"/portions/*/expect/*/*", true, explain_expected},
      {"/overshoot_chance", true, explain_overshoot},
      {"/accept/*/*", true, explain_accepted},
      {"/outcomes/*/hours", true, explain_hours_of_outcome},
      {"/notes/*/*", true, explain_note},
      {"/to_log10_pco2_atm", true, explain_release, "released_to"},
      {"/jets_hours/*", true, explain_jets},
      {"/times", true, explain_turns, "turns"},
      {"/at_most", true, explain_most_turns, "most_turns"},
      {"/until/below", true, explain_edge, "edge"},
      {"/until/above", true, explain_edge, "edge"},
      {"/fraction", true, explain_fraction, "fraction"},
  };
  return rules;
}

bool matches(const std::vector<std::string>& pattern, const std::vector<std::string>& parts) {
  return std::equal(pattern.begin(), pattern.end(), parts.begin(), parts.end(),
                    [](const std::string& p, const std::string& s) { return p == "*" || p == s; });
}

}  // namespace

const Rule* rule_for(const Place& place) {
  // Steps that are done have all the numbers of a step, by the plan that they were done by.
  static const Rule done = {"/done", false, explain_done, {}};
  if (place.parts.size() > 2 && place.parts.front() == "done") return &done;
  for (const Rule& rule : table()) {
    if (rule.is_of_step != (place.step != nullptr)) continue;
    if (matches(steps_of_pointer(rule.pattern), place.rest)) return &rule;
  }
  return nullptr;
}

Node same_as(Asking& asking, const std::string& node) {
  return {"", "", 0, "", "same", {asking.input(node)}};
}

}  // namespace tub::why
