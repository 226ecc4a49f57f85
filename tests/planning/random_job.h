// Jobs drawn at random, the same on every machine.
#pragma once

#include <cstdint>

#include "planning/request.h"

namespace tub::planning {

/// A job of this seed: 150 to 12,000 L; water from soft to brackish that can exist; a shelf with
/// some products missing; any measure, retest and target set that fit; dichlor or hypochlorite.
PlanRequest random_request(std::uint64_t seed);

/// How many jobs a law is held against: so few, or what the environment asks for in TUB_LAW_JOBS.
std::uint64_t law_jobs(std::uint64_t few);

}  // namespace tub::planning
