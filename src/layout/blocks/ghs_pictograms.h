// The hazard pictograms of the GHS as curves of our own.
#pragma once

#include <optional>
#include <string_view>
#include <vector>

#include "layout/blocks/pictogram_curves.h"

namespace tub::layout {

/// The upright square round a pictogram whose square stands on its point: so many sides wide.
inline constexpr double diamond_field = 1.4142135623730951;

/// The red frame's width, as a share of the square's side.
inline constexpr double diamond_frame = 0.06;

/// A black symbol on white in a red square set at a point, on a field of 100 by 100 that the
/// square's corners touch; empty for a pictogram that is no GHS one. First the frame, then the
/// white inside, then the symbol.
///
/// Source: CLP Annex I 1.2.1 and Annex V (symbol, colours, square set at a point); the outlines and
///         the frame's share are our own
std::vector<Curve> ghs_curves(Pictogram pictogram);

/// True for a pictogram of the GHS, false for a mandatory sign.
bool is_ghs(Pictogram pictogram);

/// The pictogram of a GHS code: "GHS05" is corrosion. Nothing for a code that has none here.
std::optional<Pictogram> pictogram_of(std::string_view ghs_code);

}  // namespace tub::layout
