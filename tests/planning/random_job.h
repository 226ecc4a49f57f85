// Jobs drawn at random, the same on every machine.
#pragma once

#include <cstdint>

#include "planning/request.h"

namespace tub {

/// A job of this seed: 150 to 12,000 L; water from soft to brackish that can exist; a shelf with
/// some products missing; any measure, retest and target set that fit; dichlor or hypochlorite.
PlanRequest random_request(std::uint64_t seed);

}  // namespace tub
