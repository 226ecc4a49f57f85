#include "planning/mixture.h"

#include <algorithm>

namespace tub {
namespace {

/// What was assumed of either water; of the other only what is not assumed of the first alike.
std::vector<Reason> assumed_of_both(const StartWater& water, const StartWater& other) {
  std::vector<Reason> assumed = water.assumed;
  for (Reason reason : other.assumed) {
    if (std::find(assumed.begin(), assumed.end(), reason) != assumed.end()) continue;
    reason.parameters.emplace_back("water", std::string("second_source"));
    assumed.push_back(std::move(reason));
  }
  return assumed;
}

void add_errors(const StartWater& water, const StartWater& other, double fraction,
                std::vector<UncertainReading>& errors) {
  for (const UncertainReading& one : water.uncertain) {
    errors.push_back({one.reading, blend(one.low, other.water, fraction),
                      blend(one.high, other.water, fraction), one.share});
  }
}

}  // namespace

StartWater mixed(const StartWater& water, const StartWater& other, double fraction,
                 double half_width, const SpeciesTable& species) {
  StartWater mix;
  mix.water = blend(water.water, other.water, fraction);
  mix.state = read(mix.water, species);
  mix.measured = water.measured;
  mix.assumed = assumed_of_both(water, other);
  if (fraction < 1) add_errors(water, other, fraction, mix.uncertain);
  if (fraction > 0) add_errors(other, water, 1 - fraction, mix.uncertain);
  if (fraction > 0 && fraction < 1 && half_width > 0) {
    const double less = std::max(0.0, fraction - half_width);
    const double more = std::min(1.0, fraction + half_width);
    const double share = std::min(fraction - less, more - fraction) / half_width;
    mix.uncertain.push_back(
        {std::nullopt, blend(water.water, other.water, fraction - share * half_width),
         blend(water.water, other.water, fraction + share * half_width), share});
  }
  return mix;
}

}  // namespace tub
