#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "base/text.h"
#include "job/job_parts.h"
#include "job/names.h"

namespace tub {
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

void put_own_figures(const Value& targets, TargetSet& set) {
  for (const Reading reading : all_readings) {
    const Value* const own = targets.find(name_of(reading));
    if (own == nullptr) continue;
    Target& target = set.readings[reading];
    for (const Edge& edge : edges) {
      if (const auto value = own->number(edge.name)) target.*(edge.member) = *value;
    }
    if (own->number("stop")) target.stop_is_assumed = false;
    require_order(*own, target, edges[0], edges[1]);
    require_order(*own, target, edges[1], edges[2]);
    require_order(*own, target, edges[0], edges[2]);
    require_order(*own, target, edges[3], edges[4]);
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

// True if the sanitizer, or a product that it is made of, is among the names or of their groups.
bool is_among(const std::vector<std::string>& names, const SanitizerEntry& entry,
              const std::vector<Product>& products) {
  if (std::find(names.begin(), names.end(), entry.id) != names.end()) return true;
  return std::any_of(products.begin(), products.end(), [&](const Product& product) {
    const bool is_its =
        std::find(entry.products.begin(), entry.products.end(), product.id) != entry.products.end();
    return is_its && std::any_of(names.begin(), names.end(),
                                 [&](const std::string& group) { return product.in_group(group); });
  });
}

std::string others_than(const std::vector<std::string>& names,
                        const std::vector<Product>& products) {
  std::vector<std::string_view> allowed;
  for (const SanitizerEntry& entry : sanitizer_entries()) {
    if (!is_among(names, entry, products)) allowed.push_back(entry.id);
  }
  return fmt::format("it allows: {}", fmt::join(allowed, ", "));
}

void require_allowed(const Value& at, const TargetSet& set, const Sanitizer& sanitizer,
                     const JobReading& reading) {
  const SanitizerEntry* const entry = sanitizer_entry(sanitizer.kind);
  const std::vector<Product>& products = reading.catalogue.planning.products;
  if (entry == nullptr) return;
  if (is_among(set.forbids, *entry, products)) {
    at.problem(fmt::format("the target set {} forbids the sanitizer {}", set.id, sanitizer.kind),
               others_than(set.forbids, products));
  } else if (is_among(set.advises_against, *entry, products)) {
    reading.warn(
        at,
        fmt::format("the target set {} advises against the sanitizer {}", set.id, sanitizer.kind),
        others_than(set.advises_against, products));
  }
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
  if (targets->is_object()) put_own_figures(*targets, set);
  require_use(*targets, set, tub, reading);
  if (sanitizer_value != nullptr) require_allowed(*sanitizer_value, set, sanitizer, reading);
  if (const Value* const vessel = job.find("vessel")) require_coolness(*vessel, set, tub);
  return set;
}

}  // namespace tub
