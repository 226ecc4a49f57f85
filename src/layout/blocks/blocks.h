// One function a block kind: the block as a fragment of a given width.
#pragma once

#include <vector>

#include "document/block.h"
#include "layout/pages/context.h"
#include "layout/pages/fragment.h"

namespace tub::layout {

Fragment lay_masthead(const Masthead& masthead, double width, const Context& context);
/// Kind, title and figure in one line, for the pages after the first.
Fragment lay_short_masthead(const Masthead& masthead, double width, const Context& context);
Fragment lay_text(const Text& text, double width, const Context& context);
Fragment lay_channel(const Channel& channel, double width, const Context& context);
Fragment lay_notice(const Notice& notice, double width, const Context& context);
Fragment lay_signs(const Signs& signs, double width, const Context& context);

Fragment lay_table(const Table& table, double width, const Context& context);
/// Whether a table may go on on the next page: it has heads to repeat, plain rows, and no lines
/// that run through all of them.
bool can_break(const Table& table);
/// A table in parts that may stand on different pages. The head is one row; each other part is a
/// row with those that are joined to it.
struct TableParts {
  Fragment head;
  std::vector<Fragment> rows;
};
/// REQUIRES: a table that can break
TableParts lay_table_parts(const Table& table, double width, const Context& context);
Fragment lay_columns(const Columns& columns, double width, const Context& context);
Fragment lay_chart(const Chart& chart, double width, const Context& context);
Fragment lay_code(const Code& code, double width, const Context& context);
Fragment lay_room(const Room& room, double width, const Context& context);
/// Blocks below each other, inside another block.
Fragment lay_stack(const std::vector<Block>& blocks, double width, const Context& context);

/// A whole ladder, where it stands inside another block.
Fragment lay_ladder(const Ladder& ladder, double width, const Context& context);

/// A block of any kind.
Fragment lay_block(const Block& block, double width, const Context& context);

}  // namespace tub::layout
