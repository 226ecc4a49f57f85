// What a laid-out label measures, for the rules that it is held against.
#pragma once

#include <optional>

#include "document/label_measures.h"
#include "layout/pages/page.h"
#include "layout/type/font.h"

namespace tub::layout {

/// The figures of one label's page: its size, the sides of its hazard squares, the smallest
/// x-height of all text, the least line distance inside a paragraph, the least contrast of text
/// with what it stands on.
LabelMeasures measure_label(const Page& page, const FontSet& fonts);

/// The side of a square set at a point, in points; nothing if the path is none.
std::optional<double> diamond_side(const Path& path);

/// The contrast of two colours, from 1 to 21.
///
/// Source: WCAG 2.1, definitions of contrast ratio and relative luminance
double contrast_of(Colour one, Colour other);

}  // namespace tub::layout
