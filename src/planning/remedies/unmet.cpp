#include "planning/remedies/unmet.h"

#include <algorithm>

#include "planning/goals/sanitizer.h"
#include "planning/goals/single_reading.h"
#include "planning/pours/measured_draft.h"
#include "planning/remedies/water_remedies.h"

namespace tub::planning {
namespace {

/// Why a reading may stay outside, and the product that would mend it.
struct Cause {
  Reading reading;
  bool is_too_low;
  Purpose purpose;
  std::string_view none_on_shelf;
  std::string_view product;
};

constexpr std::array causes = {
    Cause{Reading::ph, false, Purpose::lower_ph, "no_acid_on_shelf", "dry_acid"},
    Cause{Reading::ph, true, Purpose::raise_ph, "no_base_on_shelf", "soda_ash"},
    Cause{Reading::total_alkalinity, true, Purpose::raise_alkalinity,
          "no_alkalinity_product_on_shelf", "sodium_bicarbonate"},
    Cause{Reading::total_alkalinity, false, Purpose::lower_ph, "no_acid_on_shelf", "dry_acid"},
    Cause{Reading::calcium_hardness, true, Purpose::raise_calcium, "no_calcium_product_on_shelf",
          "calcium_chloride_dihydrate"},
};

Remedy buy(std::string_view product) {
  Remedy remedy;
  remedy.kind = "buy";
  remedy.product = product;
  return remedy;
}

std::string too_high(Reading reading) { return std::string(name_of(reading)) + "_too_high"; }

bool shelf_has(const Situation& situation, Purpose purpose) {
  const auto& supplies = situation.supplies();
  return std::any_of(supplies.begin(), supplies.end(),
                     [&](const Supply& supply) { return supply.product().can(purpose); });
}

void explain_by_shelf(const Situation& situation, bool is_too_low, Unmet& unmet) {
  for (const Cause& cause : causes) {
    if (cause.reading != unmet.reading || cause.is_too_low != is_too_low) continue;
    if (situation.mildest(cause.purpose) == nullptr) {
      const bool harms = shelf_has(situation, cause.purpose);
      unmet.reason.code = harms ? "product_harms_shell" : std::string(cause.none_on_shelf);
      unmet.remedy = buy(cause.product);
      return;
    }
  }
  unmet.reason.code =
      unmet.reading == Reading::ph ? "ph_leaves_no_room_to_pour" : "other_reading_in_the_way";
}

/// The hours in which what is there now falls to the gate.
void wait_for_it(const Situation& situation, std::string_view code, double now_mg_l, Unmet& unmet) {
  const Interval hours = hours_to_fall(situation, now_mg_l, *unmet.high);
  unmet.reason = {std::string(code), {{"hours_low", hours.low}, {"hours_high", hours.high}}};
  unmet.remedy = Remedy{};
  unmet.remedy->kind = "wait";
  unmet.remedy->hours = hours.value;
}

/// Stabiliser leaves no room for more of it; and the share to drain until it does.
Reason no_more_dichlor(const Situation& situation) {
  const double most = situation.assumptions.no_more_dichlor_cyanuric_acid_mg_l.value;
  const double found = situation.start.state.cyanuric_acid_mg_l;
  return {"stabiliser_leaves_no_dichlor",
          {{"cyanuric_acid_mg_l", found},
           {"no_more_from_mg_l", most},
           {"drain_fraction", share_to_drain(situation.assumptions, found, 0, most)}}};
}

void explain_missing_sanitizer(const Situation& situation, Unmet& unmet) {
  const std::vector<std::string> lacks = sanitizer_lacks(situation);
  if (has_loose_metals(situation)) {
    unmet.reason.code = "metals_come_first";
    unmet.remedy = buy("sequestrant");
  } else if (bromide_takes_the_chlorine(situation)) {
    unmet.reason = {"bromide_takes_the_chlorine",
                    {{"bromide_as_br2_mg_l", bromide_as_bromine_mg_l(situation)}}};
    unmet.remedy = Remedy{};
    unmet.remedy->kind = "drain";
    unmet.remedy->fraction = 1;
  } else if (!lacks.empty() && is_full_of_stabiliser(situation) &&
             brings_stabiliser(situation.sanitizer, situation.data.products)) {
    unmet.reason = no_more_dichlor(situation);
    unmet.remedy = buy(lacks.front());
  } else if (!lacks.empty()) {
    const auto& bank = situation.sanitizer.bank;
    const bool is_bank = !bank.empty() && lacks.front() == bank.front();
    unmet.reason.code = is_bank ? "no_bromide_on_shelf" : "no_sanitizer_on_shelf";
    unmet.remedy = buy(lacks.front());
  } else if (const double bromine = bromine_from_chlorine_mg_l(situation); bromine > *unmet.high) {
    wait_for_it(situation, "chlorine_makes_too_much_bromine", bromine, unmet);
  } else {
    unmet.reason.code = "ph_leaves_no_room_to_pour";
  }
}

void explain_sanitizer(const Situation& situation, bool is_too_low, Unmet& unmet) {
  if (is_too_low) return explain_missing_sanitizer(situation, unmet);
  wait_for_it(situation, "sanitizer_too_high", unmet.reached, unmet);
}

void explain(const Situation& situation, Unmet& unmet) {
  const bool is_too_low = unmet.low && unmet.reached < *unmet.low;
  if (unmet.reading == situation.sanitizer.reading) {
    return explain_sanitizer(situation, is_too_low, unmet);
  }
  const bool acid_lowers =
      unmet.reading == Reading::ph || unmet.reading == Reading::total_alkalinity;
  if (is_too_low || acid_lowers) return explain_by_shelf(situation, is_too_low, unmet);
  if (unmet.reading == Reading::combined_chlorine && !situation.request.water_is_in_tub) {
    // The first dose of chlorine is meant for it; whether it did its work only a test can say.
    unmet.reason.code = "combined_chlorine_of_the_tap";
    unmet.remedy = Remedy{};
    unmet.remedy->kind = "wait";
    return;
  }
  unmet.reason.code = too_high(unmet.reading);
}

/// Bands of the job's own that are given up, since they have nothing in common with the gate.
void add_aims_outside_gate(const Situation& situation, const WaterState& final,
                           std::vector<Unmet>& all) {
  for (const auto& [reading, gate] : situation.gate.readings) {
    const auto target = situation.targets.readings.find(reading);
    if (target == situation.targets.readings.end() || !target->second.band_is_own) continue;
    const Limits band{target->second.low, target->second.high};
    if (reading == situation.sanitizer.reading || !is_apart(band, gate)) continue;
    Unmet unmet;
    unmet.reading = reading;
    unmet.low = band.low;
    unmet.high = band.high;
    unmet.reached = value_of(reading, final);
    unmet.reason.code = "aim_outside_gate";
    all.push_back(unmet);
  }
}

/// Not poured for, since it would likelier than not go too far; pH and alkalinity need each other's
/// pours.
bool is_left_out(Reading reading, const std::set<Reading>& left_out) {
  const bool is_balanced = reading == Reading::ph || reading == Reading::total_alkalinity;
  return left_out.contains(reading) ||
         (is_balanced &&
          (left_out.contains(Reading::ph) || left_out.contains(Reading::total_alkalinity)));
}

Unmet held_by_nothing(Reading metal, double limit, double found) {
  Unmet unmet;
  unmet.reading = metal;
  unmet.high = limit;
  unmet.reached = found;
  unmet.reason.code = "no_sequestrant_on_shelf";
  unmet.remedy = buy("sequestrant");
  return unmet;
}

}  // namespace

std::vector<Unmet> unmet_of(const Situation& situation, const std::set<Reading>& left_out,
                            const WaterState& final) {
  std::vector<Unmet> all;
  for (const Reading reading : outside_bands(situation.goals, final)) {
    const Goal& goal = *situation.goal(reading);
    const double reached = value_of(reading, final);
    Unmet unmet;
    unmet.reading = reading;
    unmet.low = goal.band.low;
    unmet.high = goal.band.high;
    unmet.reached = reached;
    if (is_left_out(reading, left_out)) {
      unmet.reason.code = "pour_would_overshoot";
    } else {
      explain(situation, unmet);
    }
    all.push_back(unmet);
  }
  add_aims_outside_gate(situation, final, all);
  if (!has_loose_metals(situation)) return all;
  for (const auto& [metal, found] : metals_to_hold(situation)) {
    all.push_back(
        held_by_nothing(metal, situation.assumptions.metal_limits.at(metal).value, found));
  }
  return all;
}

}  // namespace tub::planning
