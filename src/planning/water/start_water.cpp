#include "planning/water/start_water.h"

#include <algorithm>
#include <optional>

#include "base/error.h"
#include "planning/water/start_errors.h"

namespace tub::planning {
namespace {

/// Keys of a slip that are not keys of a water.
constexpr const char* conductivity = "conductivity_us_cm";
constexpr const char* dissolved_solids = "dissolved_solids_mg_l";

/// The slip's readings, and what had to be put in beside them.
class Completion {
 public:
  Completion(const WaterTest& test, const Assumptions& assumptions)
      : test_(test), assumptions_(assumptions) {
    readings_.temperature_c = test.temperature_c;
    if (test.temperature_is_assumed) {
      assumed_.push_back(reason_of(assumptions.source_temperature_c));
    } else {
      measured_.emplace_back("temperature_c");
    }
    for (const auto& key : reading_keys) take(key);
    complete_hardness();
    complete_chlorine();
    complete_metals();
    assume_absent("sulfate_mg_l", readings_.sulfate_mg_l, assumptions.sulfate_mg_l);
    if (!solids())
      assume_absent("chloride_mg_l", readings_.chloride_mg_l, assumptions.chloride_mg_l);
  }

  /// Dissolved solids as far as the slip tells them.
  std::optional<double> solids() const {
    if (const auto measured = test_.value(dissolved_solids)) return measured;
    const auto measured = test_.value(conductivity);
    if (!measured) return std::nullopt;
    return *measured * assumptions_.dissolved_solids_per_conductivity.value;
  }

  bool has(const std::string& key) const { return test_.value(key).has_value(); }
  const Readings& readings() const { return readings_; }
  const std::vector<std::string>& measured() const { return measured_; }
  const std::vector<Reason>& assumed() const { return assumed_; }

 private:
  void take(const RecordKey<Readings>& key) {
    const auto value = test_.value(std::string(key.name));
    if (!value) return;
    readings_.*key.member = *value;
    measured_.emplace_back(key.name);
  }

  void assume_absent(const std::string& key, double& reading, const Assumed& assumption) {
    if (has(key)) return;
    reading = assumption.value;
    assumed_.push_back(reason_of(assumption));
  }

  void complete_hardness() {
    const bool has_calcium = has("calcium_hardness_mg_l");
    const bool has_magnesium = has("magnesium_hardness_mg_l");
    const auto total = test_.value(total_hardness_key);
    double& calcium = readings_.calcium_hardness_mg_l;
    double& magnesium = readings_.magnesium_hardness_mg_l;
    if (has_calcium && has_magnesium) return;
    if (total && has_calcium) {
      magnesium = std::max(0.0, *total - calcium);
    } else if (total && has_magnesium) {
      calcium = std::max(0.0, *total - magnesium);
    } else {
      const double share = assumptions_.magnesium_share.value;
      if (total) {
        calcium = *total * (1 - share);
        assumed_.push_back({"calcium_not_tested", {{"calcium_hardness_mg_l", calcium}}});
      }
      magnesium = calcium * share / (1 - share);
      assumed_.push_back(reason_of(assumptions_.magnesium_share));
    }
  }

  void complete_chlorine() {
    double& free = readings_.free_chlorine_mg_l;
    double& combined = readings_.combined_chlorine_mg_l;
    const auto total = test_.value(total_chlorine_key);
    const bool has_free = has("free_chlorine_mg_l");
    if (!has_free) {
      free = total.value_or(assumptions_.tap_free_chlorine_mg_l.value);
      if (!total) assumed_.push_back(reason_of(assumptions_.tap_free_chlorine_mg_l));
    }
    if (has("combined_chlorine_mg_l")) return;
    if (total && has_free) {
      combined = std::max(0.0, *total - free);
      measured_.emplace_back("combined_chlorine_mg_l");
    } else if (total) {
      // What is not known to be free is taken as combined: it eats the first dose.
      combined = *total;
      free = 0;
      assumed_.push_back(
          {"total_chlorine_taken_as_combined", {{"combined_chlorine_mg_l", *total}}});
    } else {
      combined = assumptions_.tap_combined_chlorine_mg_l.value;
      assumed_.push_back(reason_of(assumptions_.tap_combined_chlorine_mg_l));
    }
  }

  void complete_metals() {
    for (const auto& [reading, limit] : assumptions_.metal_limits) {
      const std::string key(key_of(reading));
      if (!has(key)) assumed_.push_back({"metal_not_tested", {{"reading", key}}});
    }
  }

  const WaterTest& test_;
  const Assumptions& assumptions_;
  Readings readings_;
  std::vector<std::string> measured_;
  std::vector<Reason> assumed_;
};

/// A water and the ion that closes its charge balance.
struct Closed {
  Water water;
  WaterState state;
  Balance balance = Balance::sodium;
};

Closed closed_by(const Readings& readings, Balance balance, const SpeciesTable& species) {
  const Water water = water_from_readings(readings, balance, species);
  WaterState state = read(water, species);
  // As the slip says them, not as they come back from the totals in the last digits.
  Readings given = readings;
  (balance == Balance::sodium ? given.sodium_mg_l : given.chloride_mg_l) =
      balance == Balance::sodium ? state.sodium_mg_l : state.chloride_mg_l;
  static_cast<Readings&>(state) = given;
  return {water, state, balance};
}

/// Sodium is tried first, then chloride; what chloride cannot mend is the water's own fault.
Closed close(const Readings& readings, const SpeciesTable& species) {
  try {
    return closed_by(readings, Balance::sodium, species);
  } catch (const Error&) {
    return closed_by(readings, Balance::chloride, species);
  }
}

/// Salt put in until the dissolved solids are those of the slip.
Closed with_solids(Readings readings, double wanted_mg_l, const SpeciesTable& species,
                   std::vector<Reason>& assumed) {
  const Closed without = close(readings, species);
  const double missing = wanted_mg_l - without.state.dissolved_solids_mg_l;
  if (missing < 0) {
    assumed.push_back(
        {"dissolved_solids_of_the_ions",
         {{"estimated_mg_l", wanted_mg_l}, {"ions_mg_l", without.state.dissolved_solids_mg_l}}});
    return without;
  }
  const double sodium = species.component(Component::sodium).molar_mass;
  const double chloride = species.component(Component::chloride).molar_mass;
  readings = without.state;
  readings.sodium_mg_l += missing * sodium / (sodium + chloride);
  readings.chloride_mg_l += missing * chloride / (sodium + chloride);
  assumed.push_back({"dissolved_solids_as_salt", {{"sodium_chloride_mg_l", missing}}});
  return closed_by(readings, without.balance, species);
}

Reason closing_reason(const Closed& closed, const Completion& slip) {
  const bool is_sodium = closed.balance == Balance::sodium;
  const std::string key = is_sodium ? "sodium_mg_l" : "chloride_mg_l";
  const double value = is_sodium ? closed.state.sodium_mg_l : closed.state.chloride_mg_l;
  Reason reason{"charge_balance_closed",
                {{"ion", is_sodium ? "sodium" : "chloride"}, {"mg_l", value}}};
  if (slip.has(key)) {
    const double found = is_sodium ? slip.readings().sodium_mg_l : slip.readings().chloride_mg_l;
    reason.parameters.emplace_back("measured_mg_l", found);
  }
  return reason;
}

}  // namespace

Reason reason_of(const Assumed& assumed) {
  Reason reason{assumed.code, {{"value", assumed.value}, {"unit", assumed.unit}}};
  if (assumed.low != assumed.high) {
    reason.parameters.emplace_back("low", assumed.low);
    reason.parameters.emplace_back("high", assumed.high);
  }
  return reason;
}

StartWater start_water(const WaterTest& test, const PlanningData& data,
                       const SpeciesTable& species) {
  const Completion slip(test, data.assumptions);
  StartWater start;
  start.assumed = slip.assumed();
  start.measured = slip.measured();
  const bool salt_is_open = slip.solids() && !slip.has("chloride_mg_l");
  const Closed closed = salt_is_open
                            ? with_solids(slip.readings(), *slip.solids(), species, start.assumed)
                            : close(slip.readings(), species);
  start.water = closed.water;
  start.state = closed.state;
  start.assumed.push_back(closing_reason(closed, slip));
  start.uncertain = start_errors(test, closed.state, data, species);
  return start;
}

}  // namespace tub::planning
