// What is drawn and not set from a face: ticks, triangles, arrows, chips, writing lines, rings.
#pragma once

#include <string>
#include <vector>

#include "layout/pages/context.h"
#include "layout/pages/fragment.h"

namespace tub::layout {

// All marks stand around a baseline: x from 0, y of the baseline 0.

/// From a chip's edge to its text: bank and padding.
double chip_side(const Context& context);
/// A target's grey, as high as the type's line, between two banks.
std::vector<Mark> chip_marks(double width, const Type& type, const Context& context);

/// An empty square to tick, its foot so far below the baseline.
Mark tick_mark(double side, double drop, const Context& context);
Mark triangle_mark(const std::string& alt, const Context& context);
Mark arrow_mark(const std::string& alt, const Context& context);
/// A line to write on, a little below the baseline.
Mark fill_mark(double width, const std::string& alt, const Context& context);

/// A circle as four curves.
Path circle(Point centre, double radius);
/// A rectangle without stroke.
Box filled_box(Point corner, double width, double height, Colour fill);

}  // namespace tub::layout
