// The plan as JSON: what `plan --json` prints and `schema plan` publishes, from one table of keys.
#pragma once

#include <string>

#include "planning/plan.h"

namespace tub::job {

/// The plan's JSON, keys in a fixed order: the same plan gives the same bytes.
std::string plan_json(const Plan& plan);

/// The JSON Schema (2020-12) of what plan_json writes.
std::string plan_schema();

}  // namespace tub::job
