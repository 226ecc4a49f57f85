// What is judged after retests, and what was done before them.
#pragma once

#include <string>
#include <vector>

#include "why/chain.h"

namespace tub::why {

class Asking;
struct Place;

/// A number of the water that a plan goes on from.
Node judged_reading(Asking& asking, const std::string& key);
/// The likeliest value of something that the job states, by all readings together.
Node judged_value(Asking& asking, const std::string& stated);
/// The readings that were found, as inputs.
std::vector<Input> found_readings(Asking& asking);

Node explain_found(Asking& asking, const Place& place);
Node explain_done(Asking& asking, const Place& place);

}  // namespace tub::why
