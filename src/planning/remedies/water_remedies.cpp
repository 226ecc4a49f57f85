#include "planning/remedies/water_remedies.h"

#include <algorithm>
#include <functional>
#include <set>

#include "planning/pours/measured_draft.h"
#include "planning/remedies/refill.h"

namespace tub::planning {
namespace {

/// A way to get at another water.
struct WaterWay {
  std::string kind;
  std::string with;
  std::function<StartWater(double)> at;  ///< the water with that share of the other in it
};

/// How well a share mends.
enum class Mended { no, at_others_cost, perhaps, surely };

std::set<Reading> unmet_readings(const Situation& situation, const Draft& draft) {
  return outside_bands(situation.goals, situation.final_state(draft));
}

Mended mended(const Situation& then, const Unmet& unmet, const std::set<Reading>& before) {
  const Draft draft = solved_draft(then);
  const std::set<Reading> left = unmet_readings(then, draft);
  if (left.contains(unmet.reading)) return Mended::no;
  if (!std::includes(before.begin(), before.end(), left.begin(), left.end())) {
    return Mended::at_others_cost;
  }
  return is_doubtful(then, unmet.reading, draft) ? Mended::perhaps : Mended::surely;
}

/// What is left of a reading that is one total; nothing to go by for the others.
bool is_mixed_evenly(Reading reading) { return reading != Reading::ph; }

/// Too little of the other water, by the mixing alone: no plan needs to be made for it.
bool is_too_little(const Situation& situation, const Unmet& unmet, const StartWater& mix) {
  if (!is_mixed_evenly(unmet.reading) || !unmet.high) return false;
  const double taken =
      value_of(unmet.reading, situation.start.state) - value_of(unmet.reading, mix.state);
  return unmet.reading != Reading::total_alkalinity && unmet.reached - taken > *unmet.high + 1e-6;
}

std::optional<double> least_share(const Situation& situation, const Unmet& unmet,
                                  const WaterWay& way) {
  const std::set<Reading> before = unmet_readings(situation, solved_draft(situation));
  std::optional<double> found;
  Mended best = Mended::no;
  for (const double share :
       refill_shares(situation.assumptions, situation.request.water_is_in_tub)) {
    StartWater mix = way.at(share);
    if (is_too_little(situation, unmet, mix)) continue;
    const Situation then(situation.request, situation.data, situation.bench.species(),
                         std::move(mix), {share, way.with});
    const Mended how = mended(then, unmet, before);
    if (how <= best) continue;
    // What would overshoot is not poured: the share mends nothing then.
    if (unmet_readings(then, measured_draft(then)).contains(unmet.reading)) continue;
    best = how;
    found = share;
    if (how == Mended::surely) break;
  }
  return found;
}

std::vector<WaterWay> ways(const Situation& situation, const Unmet& unmet) {
  const SpeciesTable& species = situation.bench.species();
  const Assumptions& assumptions = situation.assumptions;
  std::vector<WaterWay> all;
  const bool is_full = situation.request.water_is_in_tub;
  if (!is_full && unmet.reading == Reading::calcium_hardness) {
    all.push_back({"soften", "source_water", [&](double share) {
                     return partly_softened(situation.start, share, assumptions, species);
                   }});
  }
  const StartWater soft = start_water(softer_water(assumptions), situation.data, species);
  all.push_back({is_full ? "replace" : "blend", "softer_water", [&, soft](double share) {
                   return mixed(situation.start, soft, share, assumptions.refill_half_width.value,
                                species);
                 }});
  return all;
}

/// The calcium and magnesium that a softener takes, as sodium.
Water softened(const Water& water, const Assumptions& assumptions) {
  Water result = water;
  const double hardness = calcium_hardness_mg_l(water.totals);
  const double leaves = assumptions.softener_leaves_mg_l.value;
  const double share = hardness > leaves ? 1 - leaves / hardness : 0;
  for (const Component metal : {Component::calcium, Component::magnesium}) {
    const double taken = share * water.totals[metal];
    result.totals[metal] -= taken;
    result.totals[Component::sodium] += 2 * taken;
  }
  return result;
}

}  // namespace

WaterTest softer_water(const Assumptions& assumptions) {
  WaterTest test;
  test.temperature_c = assumptions.source_temperature_c.value;
  for (const auto& [reading, assumed] : assumptions.softer_water) {
    test.readings[std::string(key_of(reading))] = {assumed.value, ""};
  }
  return test;
}

StartWater partly_softened(const StartWater& water, double fraction, const Assumptions& assumptions,
                           const SpeciesTable& species) {
  const auto treated = [&](const Water& whole) {
    return blend(whole, softened(whole, assumptions), fraction);
  };
  StartWater result = water;
  result.water = treated(water.water);
  result.state = read(result.water, species);
  for (UncertainReading& error : result.uncertain) {
    error.low = treated(error.low);
    error.high = treated(error.high);
  }
  return result;
}

double share_to_drain(const Assumptions& assumptions, double found, double other, double most) {
  for (const double share : refill_shares(assumptions, true)) {
    if (found + share * (other - found) < most) return share;
  }
  return 1;
}

std::optional<Remedy> dilution(const Situation& situation, const Unmet& unmet) {
  const Reading reading = unmet.reading;
  const bool is_diluted =
      reading == Reading::cyanuric_acid || reading == Reading::combined_chlorine;
  if (!is_diluted || !situation.request.water_is_in_tub || !unmet.high) return std::nullopt;
  const auto& second = situation.request.second_source;
  const double other = second ? second->value(std::string(key_of(reading))).value_or(0) : 0;
  const double found = value_of(reading, situation.start.state);
  const double added = unmet.reached - found;
  Remedy remedy;
  remedy.fraction = share_to_drain(situation.assumptions, found, other, *unmet.high - added);
  remedy.kind = *remedy.fraction == 1 ? "drain" : "replace";
  remedy.with = second ? "second_source" : "fresh_water";
  return remedy;
}

std::optional<Remedy> water_remedy(const Situation& situation, const Unmet& unmet) {
  for (const WaterWay& way : ways(situation, unmet)) {
    const std::optional<double> share = least_share(situation, unmet, way);
    if (!share) continue;
    Remedy remedy;
    const bool is_all = situation.request.water_is_in_tub && *share == 1;
    remedy.kind = is_all ? "drain" : way.kind;
    remedy.fraction = *share;
    remedy.with = way.with;
    return remedy;
  }
  return std::nullopt;
}

}  // namespace tub::planning
