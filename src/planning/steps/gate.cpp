#include "planning/steps/gate.h"

#include <algorithm>

#include "planning/goals/single_reading.h"
#include "planning/situation.h"

namespace tub::planning {
namespace {

std::optional<Range> own_gate(const TargetSet& set, Reading reading) {
  const auto found = set.readings.find(reading);
  if (found == set.readings.end()) return std::nullopt;
  const Target& target = found->second;
  if (!target.bathe_low || !target.stop) return std::nullopt;
  return Range{*target.bathe_low, *target.stop};
}

/// The set without the job's own figures.
const TargetSet& published(const TargetSet& set, const PlanningData& data) {
  const auto found = std::find_if(data.target_sets.begin(), data.target_sets.end(),
                                  [&](const TargetSet& row) { return row.id == set.id; });
  return found == data.target_sets.end() ? set : *found;
}

bool has_own_gate(const TargetSet& set, Reading reading) {
  const auto found = set.readings.find(reading);
  return found != set.readings.end() && found->second.gate_is_own;
}

bool is_measured(const StartWater& start, Reading reading) {
  return std::find(start.measured.begin(), start.measured.end(), key_of(reading)) !=
         start.measured.end();
}

bool may_hold_stabiliser(const PlanRequest& request, const PlanningData& data) {
  return request.water_is_in_tub &&
         brings_stabiliser(sanitizer_row(data.sanitizers, request.sanitizer.kind), data.products);
}

/// How grave it is, gravest first: another water, metals, what is bought, what time mends; then
/// what keeps nobody out.
int rank(const Unmet& unmet) {
  if (!unmet.closes_gate) return 4;
  if (unmet.remedy && unmet.remedy->kind == "wait") return 3;
  const Reading reading = unmet.reading;
  if (reading == Reading::cyanuric_acid || reading == Reading::combined_chlorine) return 0;
  return reading == Reading::ph || reading == Reading::free_chlorine ||
                 reading == Reading::total_bromine
             ? 2
             : 1;
}

bool closes(const Situation& situation, const Unmet& unmet) {
  const auto gate = situation.gate.readings.find(unmet.reading);
  if (gate == situation.gate.readings.end()) {
    return unmet.reason.code == "no_sequestrant_on_shelf";
  }
  const Limits limits{gate->second.low, gate->second.high};
  return is_outside(unmet.reading, limits, unmet.reached);
}

void add_remedy(const Remedy& remedy, std::vector<std::pair<std::string, Reason::Parameter>>& to) {
  to.emplace_back("remedy", remedy.kind);
  if (remedy.fraction) to.emplace_back("fraction", *remedy.fraction);
  if (!remedy.with.empty()) to.emplace_back("with", remedy.with);
  if (!remedy.product.empty()) to.emplace_back("product", remedy.product);
  if (remedy.amount_g) to.emplace_back("amount_g", *remedy.amount_g);
  if (remedy.amount_ml) to.emplace_back("amount_ml", *remedy.amount_ml);
  if (remedy.hours) to.emplace_back("hours", *remedy.hours);
}

Reason closing_reason(const Situation& situation, const Unmet& unmet) {
  Reason reason{unmet.reason.code,
                {{"reading", std::string(key_of(unmet.reading))}, {"reached", unmet.reached}}};
  const auto gate = situation.gate.readings.find(unmet.reading);
  const bool is_of_gate = gate != situation.gate.readings.end();
  const auto low = is_of_gate ? std::optional(gate->second.low) : unmet.low;
  const auto high = is_of_gate ? std::optional(gate->second.high) : unmet.high;
  if (low && *low > 0) reason.parameters.emplace_back("low", *low);
  if (high) reason.parameters.emplace_back("high", *high);
  if (unmet.remedy) add_remedy(*unmet.remedy, reason.parameters);
  return reason;
}

void caution_metals(const Situation& situation, std::vector<Reason>& cautions) {
  if (situation.mildest(Purpose::hold_metals) == nullptr) return;
  const double reach = situation.assumptions.sequestrant_reach.value;
  for (const auto& [metal, found] : metals_to_hold(situation)) {
    const double limit = situation.assumptions.metal_limits.at(metal).value;
    if (found < reach * limit) continue;
    cautions.push_back({"more_than_a_sequestrant_holds",
                        {{"reading", std::string(key_of(metal))},
                         {"found_mg_l", found},
                         {"limit_mg_l", limit},
                         {"times", reach}}});
  }
}

/// The row of a reading, where another than the set's own source asks for its gate.
const Provenance* row_source(const TargetSet& set, Reading reading) {
  const auto target = set.readings.find(reading);
  if (target == set.readings.end() || target->second.gate_is_own) return nullptr;
  return target->second.source ? &*target->second.source : nullptr;
}

/// Who asks for a sanitizer's gate: the row, where it is another than the set's own.
void cite_row(const TargetSet& set, Reading sanitizer, BathingGate& gate) {
  const Provenance* const source = row_source(set, sanitizer);
  if (source == nullptr) return;
  gate.sources = {*source};
}

/// Beside it who asks for that of pH, where it is somebody else.
void cite_ph(const TargetSet& set, BathingGate& gate) {
  const Provenance* const source = row_source(set, Reading::ph);
  if (source == nullptr) return;
  gate.sources.push_back(*source);
}

}  // namespace

BathingGate bathing_gate(const PlanRequest& request, const PlanningData& data, Reading sanitizer) {
  const auto kind =
      request.targets.from_memory ? Provenance::Kind::from_memory : Provenance::Kind::published;
  BathingGate gate{{}, {{kind, request.targets.source}}};
  if (const auto own = own_gate(request.targets, Reading::ph)) gate.readings[Reading::ph] = *own;
  if (const auto own = own_gate(request.targets, sanitizer)) gate.readings[sanitizer] = *own;
  cite_row(request.targets, sanitizer, gate);
  const auto asked = data.gate.readings.find(sanitizer);
  const bool is_asked = request.tub.use == "private" && asked != data.gate.readings.end();
  const auto own = gate.readings.find(sanitizer);
  if (is_asked && (own == gate.readings.end() || own->second.low < asked->second.low)) {
    gate.readings[sanitizer] = asked->second;
    gate.sources = {data.gate.source};
  }
  cite_ph(request.targets, gate);
  return gate;
}

std::vector<Reading> own_figures(const TargetSet& targets) {
  std::vector<Reading> own;
  for (const auto& [reading, target] : targets.readings) {
    if (target.band_is_own || target.gate_is_own) own.push_back(reading);
  }
  return own;
}

std::vector<Reading> own_gates(const TargetSet& targets, const ByReading<Range>& gate) {
  std::vector<Reading> own;
  for (const auto& [reading, range] : gate) {
    const auto found = targets.readings.find(reading);
    if (found == targets.readings.end() || !found->second.gate_is_own) continue;
    const Target& target = found->second;
    // The authorities' gate may stand in its place.
    const bool is_in_force =
        target.stop == range.high && (range.low <= 0 || target.bathe_low == range.low);
    if (is_in_force) own.push_back(reading);
  }
  return own;
}

double ceiling_mg_l(const TargetSet& targets, const PlanningData& data, Reading reading) {
  if (has_own_gate(targets, reading) && targets.readings.at(reading).stop) {
    return *targets.readings.at(reading).stop;
  }
  const TargetSet& set = published(targets, data);
  const auto found = set.readings.find(reading);
  if (found != set.readings.end() && found->second.stop) return *found->second.stop;
  if (found != set.readings.end() && found->second.high) return *found->second.high;
  return data.gate.ceilings.at(reading).stop;
}

void add_ceilings(const PlanRequest& request, const PlanningData& data, const StartWater& start,
                  BathingGate& gate) {
  for (const auto& [reading, ceiling] : data.gate.ceilings) {
    const bool concerns = is_measured(start, reading) || value_of(reading, start.state) > 0 ||
                          has_own_gate(request.targets, reading) ||
                          (reading == Reading::cyanuric_acid && may_hold_stabiliser(request, data));
    if (concerns) gate.readings[reading] = {0, ceiling_mg_l(request.targets, data, reading)};
  }
}

Limits limits_of(const Range& gate) {
  return {gate.low > 0 ? std::optional(gate.low) : std::nullopt, gate.high};
}

bool brings_stabiliser(const SanitizerRow& sanitizer, const std::vector<Product>& products) {
  return std::all_of(sanitizer.products.begin(), sanitizer.products.end(), [&](const auto& id) {
    const auto row = std::find_if(products.begin(), products.end(),
                                  [&](const Product& product) { return product.id == id; });
    return row != products.end() && row->in_group("stabilised_chlorine");
  });
}

Limits within_gate(const Limits& band, const Range& gate) {
  Limits both = band;
  if (gate.low > 0) both.low = std::max(band.low.value_or(gate.low), gate.low);
  both.high = std::min(band.high.value_or(gate.high), gate.high);
  return is_apart(band, gate) ? limits_of(gate) : both;
}

bool is_apart(const Limits& band, const Range& gate) {
  return (band.low && *band.low > gate.high) || (band.high && *band.high < gate.low);
}

bool is_full_of_stabiliser(const Situation& situation) {
  return situation.start.state.cyanuric_acid_mg_l >=
         situation.assumptions.no_more_dichlor_cyanuric_acid_mg_l.value;
}

bool has_loose_metals(const Situation& situation) {
  const Resumption* const resumption = situation.resumption();
  if (resumption != nullptr && resumption->metals_are_held) return false;
  return situation.mildest(Purpose::hold_metals) == nullptr && !metals_to_hold(situation).empty();
}

std::optional<Reason> close_gate(const Situation& situation, std::vector<Unmet>& unmet) {
  for (Unmet& one : unmet) one.closes_gate = closes(situation, one);
  std::stable_sort(unmet.begin(), unmet.end(),
                   [](const Unmet& a, const Unmet& b) { return rank(a) < rank(b); });
  if (unmet.empty() || !unmet.front().closes_gate) return std::nullopt;
  return closing_reason(situation, unmet.front());
}

std::vector<Reason> cautions_of(const Situation& situation) {
  std::vector<Reason> cautions;
  const bool is_untested = may_hold_stabiliser(situation.request, situation.data) &&
                           !is_measured(situation.start, Reading::cyanuric_acid);
  const double most = situation.assumptions.no_more_dichlor_cyanuric_acid_mg_l.value;
  if (is_untested) {
    cautions.push_back({"stabiliser_not_tested",
                        {{"most_mg_l", situation.gate.readings.at(Reading::cyanuric_acid).high},
                         {"no_more_from_mg_l", most}}});
  }
  const Supply* const instead = situation.first_of(situation.sanitizer.instead);
  if (is_full_of_stabiliser(situation) && instead != nullptr) {
    cautions.push_back({"other_chlorine_instead",
                        {{"product", instead->product().id},
                         {"cyanuric_acid_mg_l", situation.start.state.cyanuric_acid_mg_l},
                         {"no_more_from_mg_l", most}}});
  }
  caution_metals(situation, cautions);
  return cautions;
}

}  // namespace tub::planning
