// Lists of blocks beside each other.
#include <algorithm>

#include "layout/blocks.h"

namespace tub {

Fragment lay_columns(const Columns& columns, double width, const Context& context) {
  const double gap = context.lengths().column_gutter;
  double shares = 0;
  for (const Columns::Column& column : columns.columns) shares += column.share;
  const double gaps = columns.columns.empty() ? 0 : static_cast<double>(columns.columns.size() - 1);
  const double free = width - gap * gaps;
  Fragment fragment;
  double x = 0;
  for (const Columns::Column& column : columns.columns) {
    const double column_width = free * column.share / std::max(shares, 1e-9);
    const Fragment part = lay_stack(column.blocks, column_width, context);
    fragment.place(part, {x, 0});
    fragment.height = std::max(fragment.height, part.height);
    if (fragment.baseline == 0) fragment.baseline = part.baseline;
    x += column_width + gap;
  }
  return fragment;
}

Fragment lay_stack(const std::vector<Block>& blocks, double width, const Context& context) {
  Fragment fragment;
  for (const Block& block : blocks) {
    if (fragment.height > 0) fragment.height += context.lengths().close_space;
    const Fragment part = lay_block(block, width, context);
    if (fragment.baseline == 0) fragment.baseline = part.baseline;
    fragment.place(part, {0, fragment.height});
    fragment.height += part.height;
  }
  return fragment;
}

}  // namespace tub
