// A target set with the job's own figures in it.
#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "base/text.h"
#include "job/shape/job_parts.h"
#include "planning/steps/gate.h"

namespace tub::job {
namespace {

/// An edge of a target, by its name in a job.
struct Edge {
  std::string_view name;
  std::optional<double> Target::*member;
};

constexpr std::array<Edge, 5> edges = {{{"low", &Target::low},
                                        {"ideal", &Target::ideal},
                                        {"high", &Target::high},
                                        {"bathe_low", &Target::bathe_low},
                                        {"stop", &Target::stop}}};

void require_order(const Value& value, const Target& target, const Edge& lower, const Edge& upper) {
  const auto& low = target.*(lower.member);
  const auto& high = target.*(upper.member);
  if (!low || !high || *low <= *high) return;
  value.problem(fmt::format("\"{}\" ({}) is above \"{}\" ({})", lower.name, shortest(*low),
                            upper.name, shortest(*high)),
                "set them in rising order");
}

bool is_of_gate(const Edge& edge) {
  return edge.member == &Target::bathe_low || edge.member == &Target::stop;
}

void put_own_figures(const Value& targets, TargetSet& set) {
  for (const Reading reading : all_readings) {
    const Value* const own = targets.find(name_of(reading));
    if (own == nullptr) continue;
    Target& target = set.readings[reading];
    for (const Edge& edge : edges) {
      const auto value = own->number(edge.name);
      if (!value) continue;
      target.*(edge.member) = *value;
      (is_of_gate(edge) ? target.gate_is_own : target.band_is_own) = true;
    }
    if (own->number("stop")) target.stop_is_assumed = false;
    require_order(*own, target, edges[0], edges[1]);
    require_order(*own, target, edges[1], edges[2]);
    require_order(*own, target, edges[0], edges[2]);
    require_order(*own, target, edges[3], edges[4]);
  }
}

std::string said(const Limits& limits) {
  if (!limits.low) return fmt::format("up to {}", shortest(limits.high.value_or(0)));
  if (!limits.high) return fmt::format("from {}", shortest(*limits.low));
  return fmt::format("{} to {}", shortest(*limits.low), shortest(*limits.high));
}

// What people are let in by, of a reading that a band of the job's own steers; nothing: no gate.
std::optional<Range> gate_of(const TargetSet& set, Reading reading, const PlanningData& planning) {
  const Target& target = set.readings.at(reading);
  if (planning.gate.ceilings.contains(reading)) {
    return Range{0, ceiling_mg_l(set, planning, reading)};
  }
  if (reading != Reading::ph || !target.bathe_low || !target.stop) return std::nullopt;
  return Range{*target.bathe_low, *target.stop};
}

// A band of the job's own that the set's gate cuts short, or shuts out.
void warn_of_gate(const Value& own, const TargetSet& set, Reading reading,
                  const JobReading& job_reading) {
  const Target& target = set.readings.at(reading);
  const auto gate = gate_of(set, reading, job_reading.catalogue.planning);
  if (!gate || !target.band_is_own) return;
  const Limits band{target.low, target.high};
  const bool is_inside =
      gate->holds(band.high.value_or(gate->high)) && gate->holds(band.low.value_or(gate->low));
  if (is_inside) return;
  job_reading.warn(own,
                   fmt::format("{} of {} {} the gate for bathing, {}", name_of(reading), said(band),
                               is_apart(band, *gate) ? "lies outside" : "reaches outside",
                               said(limits_of(*gate))),
                   "the plan stays inside the gate; a gate of its own has \"bathe_low\" and "
                   "\"stop\"");
}

// A sanitizer's own gate that would let people in at less than the authorities ask for.
void warn_of_authorities(const Value& own, const TargetSet& set, Reading reading, const Tub& tub,
                         const JobReading& job_reading) {
  const Target& target = set.readings.at(reading);
  const auto& asked = job_reading.catalogue.planning.gate.readings;
  const auto row = asked.find(reading);
  if (row == asked.end() || tub.use != "private" || !target.gate_is_own) return;
  if (!target.bathe_low || *target.bathe_low >= row->second.low) return;
  job_reading.warn(
      own,
      fmt::format("{} of {} lets people in at less than public-health authorities ask for",
                  name_of(reading), shortest(*target.bathe_low)),
      fmt::format("the gate stays {}", said(limits_of(row->second))));
}

void warn_of_own_figures(const Value& targets, const TargetSet& set, const Tub& tub,
                         const JobReading& reading) {
  for (const auto& [of, target] : set.readings) {
    const Value* const own = targets.find(name_of(of));
    if (own == nullptr) continue;
    warn_of_gate(*own, set, of, reading);
    warn_of_authorities(*own, set, of, tub, reading);
  }
}

std::string sets_for(const std::string& use, const std::vector<TargetSet>& sets) {
  std::vector<std::string> names;
  for (const TargetSet& set : sets) {
    if (std::find(set.uses.begin(), set.uses.end(), use) != set.uses.end()) names.push_back(set.id);
  }
  return fmt::format("for {} tubs there are: {}", use, fmt::join(names, ", "));
}

void require_use(const Value& targets, const TargetSet& set, const Tub& tub,
                 const JobReading& reading) {
  if (tub.use.empty()) return;
  if (std::find(set.uses.begin(), set.uses.end(), tub.use) != set.uses.end()) return;
  targets.problem(fmt::format("the target set {} is not for {} tubs", set.id, tub.use),
                  sets_for(tub.use, reading.catalogue.planning.target_sets));
}

bool is_named(const std::string& id, const std::vector<std::string>& names,
              const std::vector<Product>& products) {
  if (std::find(names.begin(), names.end(), id) != names.end()) return true;
  const Product* const product = row_named(products, std::optional(id));
  return product != nullptr &&
         std::any_of(names.begin(), names.end(),
                     [&](const std::string& group) { return product->in_group(group); });
}

// True if the sanitizer, or every product that can make it, is among the names or of their groups.
bool is_among(const std::vector<std::string>& names, const SanitizerRow& row,
              const std::vector<Product>& products) {
  if (std::find(names.begin(), names.end(), row.id) != names.end()) return true;
  return std::all_of(row.products.begin(), row.products.end(),
                     [&](const std::string& id) { return is_named(id, names, products); });
}

std::string others_than(const std::vector<std::string>& names, const PlanningData& planning) {
  std::vector<std::string_view> allowed;
  for (const SanitizerRow& row : planning.sanitizers) {
    if (!is_among(names, row, planning.products)) allowed.push_back(row.id);
  }
  return fmt::format("it allows: {}", fmt::join(allowed, ", "));
}

void require_allowed(const Value& at, const TargetSet& set, const Sanitizer& sanitizer,
                     const JobReading& reading) {
  const PlanningData& planning = reading.catalogue.planning;
  const SanitizerRow* const row = row_named(planning.sanitizers, std::optional(sanitizer.kind));
  if (row == nullptr) return;
  if (is_among(set.forbids, *row, planning.products)) {
    at.problem(fmt::format("the target set {} forbids the sanitizer {}", set.id, sanitizer.kind),
               others_than(set.forbids, planning));
  } else if (is_among(set.advises_against, *row, planning.products)) {
    reading.warn(
        at,
        fmt::format("the target set {} advises against the sanitizer {}", set.id, sanitizer.kind),
        others_than(set.advises_against, planning));
  }
}

bool has_gate(const TargetSet& set, Reading reading) {
  const auto target = set.readings.find(reading);
  return target != set.readings.end() && target->second.bathe_low && target->second.stop;
}

// A rented or public tub has no other gate than its set's.
void require_gate(const Value& at, const TargetSet& set, const Sanitizer& sanitizer, const Tub& tub,
                  const PlanningData& planning) {
  const SanitizerRow* const row = row_named(planning.sanitizers, std::optional(sanitizer.kind));
  if (row == nullptr || has_gate(set, row->reading)) return;
  if (tub.use == "private" && planning.gate.readings.contains(row->reading)) return;
  std::vector<std::string_view> others;
  for (const TargetSet& other : planning.target_sets) {
    const bool serves =
        std::find(other.uses.begin(), other.uses.end(), tub.use) != other.uses.end();
    if (serves && has_gate(other, row->reading)) others.push_back(other.id);
  }
  at.problem(fmt::format("the target set {} names no limits of {}, which {} is shown by", set.id,
                         name_of(row->reading), sanitizer.kind),
             fmt::format("take another sanitizer, or one of: {}", fmt::join(others, ", ")));
}

void require_private(const Value& at, const Tub& tub, const Sanitizer& sanitizer) {
  if (!sanitizer.mineral_cartridge || tub.use.empty() || tub.use == "private") return;
  at.problem(fmt::format("a mineral cartridge's lower residual is not for {} tubs", tub.use),
             "remove \"mineral_cartridge\"");
}

void require_coolness(const Value& vessel, const TargetSet& set, const Tub& tub) {
  if (tub.bathing_temperature_c <= set.temperature_max_c) return;
  const Value* const place = vessel.find("bathing_temperature");
  (place != nullptr ? *place : vessel)
      .problem(fmt::format("the target set {} allows at most {} °C, found {} °C", set.id,
                           shortest(set.temperature_max_c), shortest(tub.bathing_temperature_c)),
               "lower the bathing temperature");
}

}  // namespace

Sanitizer read_sanitizer(const Value& sanitizer) {
  if (!sanitizer.is_object()) return {sanitizer.text().value_or(""), false};
  return {sanitizer.text("kind").value_or(""), sanitizer.flag("mineral_cartridge").value_or(false)};
}

TargetSet read_targets(const Value& job, const Tub& tub, const Sanitizer& sanitizer,
                       const JobReading& reading) {
  const Value* const sanitizer_value = job.find("sanitizer");
  if (sanitizer_value != nullptr) require_private(*sanitizer_value, tub, sanitizer);
  const Value* const targets = job.find("targets");
  if (targets == nullptr) return {};
  const auto id = targets->is_object() ? targets->text("set") : targets->text();
  const TargetSet* const row = row_named(reading.catalogue.planning.target_sets, id);
  if (row == nullptr) return {};
  TargetSet set = *row;
  if (targets->is_object()) {
    put_own_figures(*targets, set);
    warn_of_own_figures(*targets, set, tub, reading);
  }
  require_use(*targets, set, tub, reading);
  if (sanitizer_value != nullptr) {
    require_allowed(*sanitizer_value, set, sanitizer, reading);
    require_gate(*sanitizer_value, set, sanitizer, tub, reading.catalogue.planning);
  }
  if (const Value* const vessel = job.find("vessel")) require_coolness(*vessel, set, tub);
  return set;
}

}  // namespace tub::job
