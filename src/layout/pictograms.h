// Draws pictograms from curves of our own.
#pragma once

#include "document/block.h"
#include "layout/context.h"
#include "layout/fragment.h"

namespace tub {

/// A pictogram in a square with that corner and side, as a figure with its alternative text.
Mark sign_mark(const Sign& sign, Point corner, double side, const Context& context);

}  // namespace tub
