#include "sheets/card/found_facts.h"

#include <string>

#include "sheets/card/addition_facts.h"

namespace tub::sheets {
namespace {

Words what_is_done(const Wording& wording) {
  const Plan& plan = wording.plan();
  const int last = plan.done.back().number;
  if (!plan.found.back().after_step) {
    return wording.messages().words("found.visit", {{"last", std::to_string(last)}});
  }
  if (!plan.steps.empty() && plan.steps.front().number == last) {
    return wording.messages().words("found.begun", {{"number", std::to_string(last)}});
  }
  return wording.messages().words("found.done", {{"last", std::to_string(last)}});
}

/// A share is told in whole percent: no retest knows it better.
Words likely_words(const Wording& wording, const Reason& reason) {
  std::vector<MessageParameter> parameters;
  for (const auto& [name, value] : reason.parameters) {
    const bool is_share = name == "share";
    parameters.emplace_back(name, is_share ? wording.rounded_percent(std::get<double>(value))
                                           : wording.parameter(name, value));
  }
  return wording.messages().words("likely." + reason.code, parameters);
}

Words far_off(const Wording& wording, const FoundReading& found) {
  const Range expected{found.expected->low, found.expected->high};
  return wording.messages().words(
      "found.off",
      {{"name", wording.reading_name(found.reading)},
       {"found", wording.measured(found.reading, found.found)},
       {"number", std::to_string(*found.after_step)},
       {"range", wording.range(found.reading, wording.printed_range(found.reading, expected))},
       {"reason", likely_words(wording, *found.likely)}});
}

}  // namespace

std::vector<Facts> found_facts(const Wording& wording) {
  std::vector<Facts> lines;
  const Plan& plan = wording.plan();
  if (plan.found.empty() || plan.done.empty()) return lines;
  lines.push_back(text_facts(what_is_done(wording)));
  for (const FoundReading& found : plan.found) {
    if (found.likely && found.expected) lines.push_back(text_facts(far_off(wording, found)));
  }
  return lines;
}

}  // namespace tub::sheets
