// Empty paper to write on, answer boxes at its foot.
#include <algorithm>
#include <utility>

#include "layout/blocks/blocks.h"
#include "layout/blocks/marks.h"
#include "layout/type/lines.h"

namespace tub::layout {
namespace {

/// Labels and boxes from left to right, on as many rows as they need.
class AnswerRow {
 public:
  AnswerRow(double width, const Context& context) : width_(width), context_(context) {}

  void add(const Words& label) {
    const Lengths& lengths = context_.lengths();
    Line line = single_line(label, context_.types().body, context_);
    const double used = line.width + lengths.tick_gap + lengths.answer_width;
    if (used > width_) context_.too_wide(text_of(label), used - width_);
    if (x_ > 0 && x_ + used > width_) {
      x_ = 0;
      out_.height += lengths.answer_height + lengths.close_space;
    }
    const double baseline = out_.height + (lengths.answer_height + line.rise - line.fall) / 2;
    const double box_x = x_ + line.width + lengths.tick_gap;
    Content content;
    append(content, std::move(line), {x_, baseline}, context_);
    content.push_back(box({box_x, out_.height}));
    out_.write(Element::of(Role::paragraph), std::move(content));
    x_ = box_x + lengths.answer_width + lengths.column_gutter;
  }

  Fragment take() {
    if (x_ > 0) out_.height += context_.lengths().answer_height;
    return std::move(out_);
  }

 private:
  Mark box(Point corner) const {
    const Lengths& lengths = context_.lengths();
    const double half = lengths.tick_line / 2;
    const Box drawn{.corner = {corner.x + half, corner.y + half},
                    .width = lengths.answer_width - lengths.tick_line,
                    .height = lengths.answer_height - lengths.tick_line,
                    .fill = {},
                    .stroke = Stroke{lengths.tick_line, context_.inks().black}};
    return {Mark::Kind::figure, {drawn}, context_.document.alternatives.fill};
  }

  double width_;
  const Context& context_;
  Fragment out_;
  double x_ = 0;
};

}  // namespace

Fragment lay_room(const Room& room, double width, const Context& context) {
  AnswerRow row(width, context);
  for (const Words& label : room.answers) row.add(label);
  const Fragment answers = row.take();
  Fragment fragment;
  const double empty = room.least_mm * mm + room.share * context.free_height;
  fragment.height = std::max(empty, answers.height);
  fragment.place(answers, {0, fragment.height - answers.height});
  return fragment;
}

}  // namespace tub::layout
