// Draws pictograms from curves of our own.
#pragma once

#include "document/block.h"
#include "layout/pages/context.h"
#include "layout/pages/fragment.h"

namespace tub::layout {

/// The side of the upright square that a pictogram takes: its own side, or for a GHS pictogram,
/// whose side is that of the square on its point, 1.414 times that.
double field_side(Pictogram pictogram, double side);

/// A pictogram in an upright square with that corner and side, as a figure with its alternative
/// text.
Mark sign_mark(const Sign& sign, Point corner, double side, const Context& context);

}  // namespace tub::layout
