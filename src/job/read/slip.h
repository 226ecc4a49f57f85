// The readings of a test slip: their names in a job, their keys in a water, and what is absurd.
#pragma once

#include <span>
#include <string_view>

#include "planning/reading.h"
#include "units/display.h"

namespace tub::job {

struct SlipField {
  std::string_view name;  ///< in a job
  std::string_view key;   ///< in a water
  QuantityKind kind{};    ///< not looked at for pH, which has no unit
  double low = 0;         ///< outside low..high, in the key's unit, it is a slip of the pen
  double high = 0;
  std::string_view example;
  std::string_view about;
};

std::span<const SlipField> slip_fields();

/// The field that gives a reading; null for those that no slip holds (combined chlorine).
const SlipField* slip_field_of(Reading reading);

}  // namespace tub::job
