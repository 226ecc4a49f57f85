// Why a plan says a number: the whole chain down to test slip, job, rows of data and definitions.
#pragma once

#include <string>

#include "job/job.h"
#include "job/shape/catalogue.h"
#include "planning/plan.h"
#include "why/chain.h"

namespace tub::why {

/// The chain behind the number at a JSON pointer of `plan --json`.
///
/// REQUIRES: plan is the plan of this job.
/// Throws:   Error, at the command line's fault, if the pointer leads to no number of the plan; its
///           help names the nearest ones
Chain explain(const std::string& pointer, const Job& job, const Catalogue& catalogue,
              const Plan& plan);

/// The chain as JSON: each node inside what it goes into, explained where it first appears.
std::string why_json(const std::string& pointer, const Chain& chain);

}  // namespace tub::why
