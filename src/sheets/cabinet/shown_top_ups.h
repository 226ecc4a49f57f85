// Which rows of a reading labels print: one choice for the cabinet label and for dose tags.
#pragma once

#include <vector>

#include "planning/pours/top_up.h"

namespace tub::sheets {

/// The rows of one side that a label has room for, from the target outwards; beyond the last of
/// them the owner calls.
///
/// Two a side, of calcium one. Below a sanitizer's gate those that a tub reads after use: the
/// lowest. Rows that ask for the same most-at-one-time pour are one row: the first.
/// REQUIRES: a side of that reading
std::vector<TopUp> shown_top_ups(const TopUpReading& reading, const TopUpSide& side);

bool is_sanitizer(Reading reading);

}  // namespace tub::sheets
