// Finds the function for a block's kind.
#include "layout/blocks.h"

#include "layout/ladder.h"

namespace tub {
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
  Fragment operator()(const Table&) const { return not_built("table"); }
  Fragment operator()(const Chart&) const { return not_built("chart"); }
  Fragment operator()(const Code&) const { return not_built("code"); }
  Fragment operator()(const Columns&) const { return not_built("columns"); }
  Fragment operator()(const Room&) const { return not_built("room"); }

  Fragment not_built(const std::string& kind) const {
    throw Error(Diagnostic{"a block of kind \"" + kind + "\" cannot be laid out in this version",
                           context.where,
                           {},
                           "leave it out of the template"});
  }
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

}  // namespace tub
