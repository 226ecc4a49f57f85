// Finds the function for a block's kind.
#include "layout/blocks/blocks.h"

#include "layout/blocks/ladder.h"

namespace tub::layout {
namespace {

struct LayBlock {
  double width;
  const Context& context;

  Fragment operator()(const Masthead& block) const { return lay_masthead(block, width, context); }
  Fragment operator()(const Text& block) const { return lay_text(block, width, context); }
  Fragment operator()(const Channel& block) const { return lay_channel(block, width, context); }
  Fragment operator()(const Ladder& block) const { return lay_ladder(block, width, context); }
  Fragment operator()(const Notice& block) const { return lay_notice(block, width, context); }
  Fragment operator()(const Signs& block) const { return lay_signs(block, width, context); }
  Fragment operator()(const Table& block) const { return lay_table(block, width, context); }
  Fragment operator()(const Chart& block) const { return lay_chart(block, width, context); }
  Fragment operator()(const Code& block) const { return lay_code(block, width, context); }
  Fragment operator()(const Columns& block) const { return lay_columns(block, width, context); }
  Fragment operator()(const Room& block) const { return lay_room(block, width, context); }
};

}  // namespace

Fragment lay_block(const Block& block, double width, const Context& context) {
  return std::visit(LayBlock{width, context}, block.content);
}

Fragment lay_ladder(const Ladder& ladder, double width, const Context& context) {
  const LadderTracks tracks = ladder_tracks(ladder, width, context);
  Fragment fragment;
  const Fragment head = lay_ladder_head(ladder, tracks, context);
  fragment.place(head, {0, 0});
  fragment.height = head.height;
  const int list = fragment.add(Element::of(Role::list));
  for (const Rung& rung : ladder.rungs) {
    const Fragment part = lay_rung(ladder, rung, tracks, context);
    fragment.place(part, {0, fragment.height}, list);
    fragment.height += part.height;
  }
  fragment.height += context.lengths().ladder_foot;
  fragment.place(lay_stiles(fragment.height, tracks, context), {0, 0});
  return fragment;
}

}  // namespace tub::layout
