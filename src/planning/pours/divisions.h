// Values as a test shows them: whole divisions of its scale.
#pragma once

#include "base/modules.h"

namespace tub::planning {

/// The highest division not above a value, the lowest not below it, the nearest one.
///
/// division: above 0. A value that is a division but for the last digits of its double is one.
double division_down(double value, double division);
double division_up(double value, double division);
double division_nearest(double value, double division);

/// `count` divisions, as the double that prints shortest (38 x 0.2 is 7.6).
double divisions(double count, double division);

}  // namespace tub::planning
