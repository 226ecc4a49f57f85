// Lists of blocks beside each other.
#include <algorithm>

#include "layout/blocks/blocks.h"

namespace tub::layout {
namespace {

void draw_rules(Fragment& fragment, const Columns& columns, double width_per_share,
                const Context& context) {
  const double gap = context.lengths().column_gutter;
  double x = 0;
  for (std::size_t i = 0; i + 1 < columns.columns.size(); ++i) {
    x += width_per_share * columns.columns[i].share + gap;
    fragment.draw(Rule{.from = {x - gap / 2, 0},
                       .to = {x - gap / 2, fragment.height},
                       .width = context.lengths().hairline,
                       .colour = context.inks().black});
  }
}

}  // namespace

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
  if (columns.is_ruled) draw_rules(fragment, columns, free / std::max(shares, 1e-9), context);
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

}  // namespace tub::layout
