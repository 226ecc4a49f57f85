// The gate: what the water has to be before anyone bathes, and what keeps it closed to a plan.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "planning/plan.h"
#include "planning/request.h"
#include "planning/water/start_water.h"

namespace tub::planning {

/// The one gate for bathing, and who asks for it.
struct BathingGate {
  ByReading<Range> readings;
  std::vector<Provenance> sources;  ///< the sanitizer's first; that of pH, where it is another
};

/// pH and the sanitizer: the set's own gate; for a private tub whose set would let people in at
/// less, the authorities'.
BathingGate bathing_gate(const PlanRequest& request, const PlanningData& data, Reading sanitizer);

/// The readings of which the job gives figures of its own.
std::vector<Reading> own_figures(const TargetSet& targets);
/// Those whose gate for bathing is the job's.
std::vector<Reading> own_gates(const TargetSet& targets, const ByReading<Range>& gate);

/// The most of a reading that anybody may bathe in: the job's own stop, else the set's, else that
/// of the gate's ceilings. A band of the job's own leaves it as it is.
double ceiling_mg_l(const TargetSet& targets, const PlanningData& data, Reading reading);

/// Puts the ceilings in that concern this water: of what was measured or is there, of what the job
/// names a stop for, and of stabiliser in a full tub whose sanitizer brings it.
void add_ceilings(const PlanRequest& request, const PlanningData& data, const StartWater& start,
                  BathingGate& gate);

/// A gate's two ends; no lower one where nothing is little enough to keep people out.
Limits limits_of(const Range& gate);

/// Every product that makes this sanitizer leaves cyanuric acid behind.
bool brings_stabiliser(const SanitizerRow& sanitizer, const std::vector<Product>& products);

/// The band as far as its gate lets it reach; the gate alone where the two are apart.
Limits within_gate(const Limits& band, const Range& gate);
/// The two have nothing in common.
bool is_apart(const Limits& band, const Range& gate);

class Situation;

/// There is so much cyanuric acid that no stabilised chlorine is poured.
bool is_full_of_stabiliser(const Situation& situation);

/// Metals above their limits that nothing holds: no sanitizer is poured, it would make them stain.
bool has_loose_metals(const Situation& situation);

/// Marks what of the unmet closes the gate, and puts it first, worst before all. Returns: the worst
/// of it, with its reading, where that ends, what the gate asks for and the figures of its remedy;
/// nothing where the gate opens.
std::optional<Reason> close_gate(const Situation& situation, std::vector<Unmet>& unmet);

/// What an owner has to know or do before anything is poured: a stabiliser test that is missing,
/// another chlorine that is poured, metals beyond what a sequestrant is meant for.
std::vector<Reason> cautions_of(const Situation& situation);

}  // namespace tub::planning
