// The one place that reads the clock.
#pragma once

#include "planning/heading.h"

namespace tub::app {

/// Today, in UTC; the day of SOURCE_DATE_EPOCH if that is set.
///
/// Throws: Error (Fault::machine) if SOURCE_DATE_EPOCH is not a whole number of seconds
CalendarDate today();

}  // namespace tub::app
