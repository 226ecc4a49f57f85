// The known name nearest to one that is not known.
#pragma once

#include <span>
#include <string>
#include <string_view>

#include "base/modules.h"

namespace tub {

/// The least number of insertions, deletions, substitutions and swaps of neighbours
/// that turn one text into the other, by bytes.
std::size_t edit_distance(std::string_view from, std::string_view to);

/// The known name nearest to `found`; empty if none is near enough to be meant.
std::string nearest(std::string_view found, std::span<const std::string> known);

/// "did you mean x?", or else "known are: a, b, c" (all of them), for an unknown name.
std::string suggestion(std::string_view found, std::span<const std::string> known);

}  // namespace tub
