// The water that a plan starts from: test slip, assumptions, and what closes the charge balance.
#pragma once

#include <string>

#include "why/chain.h"

namespace tub::why {

class Asking;

/// A slip, or what is assumed in its place, gives these; the others follow by equilibrium.
bool is_read_from_slip(const std::string& key);
/// water: "/start" or "/second_source"; slip: "/source_water", …
Node start_reading(Asking& asking, const std::string& water, const std::string& slip,
                   const std::string& key);
/// Dissolved solids as the slip tells them, measured or by conductivity.
std::string solids_of_slip(Asking& asking, const std::string& slip);
/// Salt that is missing to them.
Node missing_salt(Asking& asking, const std::string& water, const std::string& slip);
/// Inorganic carbon by pH and alkalinity.
Node start_carbon(Asking& asking, const std::string& water);

}  // namespace tub::why
