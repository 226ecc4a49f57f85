// Two waters in one tub: another source at the fill, or where some was drained.
#pragma once

#include <string>

#include "planning/water/start_water.h"

namespace tub::planning {

/// A share of another water in the tub.
struct Refill {
  double fraction = 0;  ///< of the whole; 0: none
  std::string with;     ///< "second_source"; "softer_water" where it is only thought of
};

/// What comes of refilling a share of a water with another. The errors of both slips stay
/// independent, and the share has its own.
///
/// fraction:   of the other water, 0 to 1
/// half_width: of the fraction, 90 %; nothing where all of it is replaced
StartWater mixed(const StartWater& water, const StartWater& other, double fraction,
                 double half_width, const SpeciesTable& species);

}  // namespace tub::planning
