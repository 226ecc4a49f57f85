#include "job/read/vessel_volume.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace tub::job {

double Basin::area_m2() const {
  const double box = length_m * width_m;
  return shape == Shape::rectangle ? box : box * std::numbers::pi / 4;
}

double Basin::benches_l() const {
  double sum = 0;
  for (const SeatBench& bench : benches) sum += 1000 * bench.area_m2() * bench.height_m;
  return sum;
}

double Dilution::give_or_take() const {
  return std::hypot(strength_half_width, half_width_before / rise(), half_width_after / rise());
}

bool agree(const FoundVolume& one, const FoundVolume& other) {
  const double apart = std::abs(one.litres - other.litres);
  return apart <= std::hypot(one.half_width_l(), other.half_width_l());
}

const FoundVolume& most_certain(std::span<const FoundVolume> volumes) {
  return *std::min_element(
      volumes.begin(), volumes.end(),
      [](const FoundVolume& a, const FoundVolume& b) { return a.give_or_take < b.give_or_take; });
}

}  // namespace tub::job
