// Jobs drawn as wide as anything that a job may say, the same on every machine.
#pragma once

#include <cstdint>

#include "planning/request.h"

namespace tub::planning {

/// A job of this seed, wider than any tub of good sense: 150 to 12,000 L known to 1 to 20 %; pH 5.5
/// to 9, alkalinity 0 to 500, hardness 0 to 1,200; every sanitizer, set, use, test method and
/// measure; any shelf, any readings beside those; fresh fills and full tubs, second sources,
/// retests and later visits.
PlanRequest wide_request(std::uint64_t seed);

}  // namespace tub::planning
