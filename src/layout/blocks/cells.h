// The cells of a table, each as a fragment of its column's width.
#pragma once

#include "document/block.h"
#include "layout/pages/context.h"
#include "layout/pages/fragment.h"
#include "layout/type/lines.h"

namespace tub::layout {

/// A cell before its row's height is known: its first element is the cell itself.
struct LaidCell {
  Fragment fragment;
  /// What is drawn behind it, over the whole cell.
  enum class Ground { none, frame, black };
  Ground ground = Ground::none;
};

/// A cell in a width; `role` says whether it stands in a head, a band, a plain or a blank row.
LaidCell lay_cell(const Cell& cell, TableRow::Role role, double width, Align align,
                  const Context& context);

}  // namespace tub::layout
