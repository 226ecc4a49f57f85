#include "planning/water/mixture.h"

#include <algorithm>

namespace tub::planning {
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
    errors.push_back(one);
    errors.back().low = blend(one.low, other.water, fraction);
    errors.back().high = blend(one.high, other.water, fraction);
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
    UncertainReading error{UncertainReading::Of::refilled_share, std::nullopt, {}, {}};
    error.low = blend(water.water, other.water, fraction - share * half_width);
    error.high = blend(water.water, other.water, fraction + share * half_width);
    error.share = error.low_share = share;
    mix.uncertain.push_back(error);
  }
  return mix;
}

}  // namespace tub::planning
