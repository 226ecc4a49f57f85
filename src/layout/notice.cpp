// A big word and a text in a frame, or white on black.
#include <algorithm>
#include <utility>

#include "layout/blocks.h"
#include "layout/lines.h"
#include "layout/marks.h"

namespace tub {
namespace {

Type inked(Type type, Colour ink) {
  type.ink = ink;
  return type;
}

Box frame(double width, double height, bool reversed, const Context& context) {
  const double line = context.lengths().notice_frame;
  const Colour black = context.inks().black;
  if (reversed) return filled_box({0, 0}, width, height, black);
  return Box{.corner = {line / 2, line / 2},
             .width = width - line,
             .height = height - line,
             .fill = {},
             .stroke = Stroke{line, black}};
}

}  // namespace

Fragment lay_notice(const Notice& notice, double width, const Context& context) {
  const Lengths& lengths = context.lengths();
  const bool reversed = notice.look == Notice::Look::reversed;
  const Colour ink = reversed ? context.inks().paper : context.inks().black;
  const double side = lengths.notice_frame + lengths.notice_side;
  Line word = single_line(notice.word, inked(context.types().notice_word, ink), context);
  const double word_width = word.width;
  const double text_x = side + (word_width > 0 ? word_width + lengths.notice_gap : 0);
  const Fragment text =
      paragraph(notice.text, inked(context.types().body, ink), width - side - text_x, context);
  const double inner = std::max(word.rise + word.fall, text.height);
  const double top = lengths.notice_frame + lengths.notice_above;
  Fragment fragment;
  fragment.height = top + inner + lengths.notice_below + lengths.notice_frame;
  fragment.draw(frame(width, fragment.height, reversed, context));
  const double word_top = top + (inner - word.rise - word.fall) / 2;
  move(word.marks, {side, word_top + word.rise});
  if (word_width > 0) fragment.write(Element::of(Role::paragraph), std::move(word.marks));
  fragment.place(text, {text_x, top + (inner - text.height) / 2});
  return fragment;
}

}  // namespace tub
