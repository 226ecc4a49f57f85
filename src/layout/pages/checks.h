// What must hold on every finished page; tests ask it of each.
#pragma once

#include <string>
#include <vector>

#include "layout/pages/page.h"

namespace tub::layout {

/// A rectangle that holds an item's ink.
struct Bounds {
  double left = 0;
  double top = 0;
  double right = 0;
  double bottom = 0;
};

/// The ink of an item: lines with their widths, text without the spaces at its end and only as high
/// and deep as its characters reach.
Bounds bounds_of(const Item& item, const FontSet& fonts);

/// One sentence for each pair of items that overlap and should not: two texts; a text and a line,
/// a figure, or the edge of a box; parts of two figures.
std::vector<std::string> overlaps(const Page& page, const FontSet& fonts);

/// One sentence for each item nearer than `margin` (points) to the page's edge.
std::vector<std::string> outside(const Page& page, const FontSet& fonts, double margin);

/// One sentence for each promise of `Page::elements` that does not hold.
std::vector<std::string> tree_faults(const Page& page);

}  // namespace tub::layout
