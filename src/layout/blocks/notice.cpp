// A big word and a text in a frame, or white on black.
#include <algorithm>
#include <utility>

#include "layout/blocks/blocks.h"
#include "layout/blocks/marks.h"
#include "layout/type/lines.h"

namespace tub::layout {
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

namespace {

/// The word's lines; the text begins behind the last, or below it where little room is left there.
Fragment lay_run_in(const Notice& notice, double width, const Context& context) {
  constexpr double least_behind = 0.25;  // of the width, for the text's first line
  const Lengths& lengths = context.lengths();
  const bool reversed = notice.look == Notice::Look::reversed;
  const Colour ink = reversed ? context.inks().paper : context.inks().black;
  const double side = lengths.notice_frame + lengths.notice_side;
  const double inner = width - 2 * side;
  const Type type = inked(context.types().body, ink);
  std::vector<Line> words =
      break_lines(notice.word, inked(context.types().notice_word, ink), inner, context);
  const double used = words.empty() ? 0 : words.back().width + lengths.notice_gap;
  const bool is_behind = used > 0 && inner - used >= least_behind * inner;
  const LineWidths widths{inner - used, is_behind ? 1 : 0, inner};
  std::vector<Line> lines = break_lines(notice.text, type, widths, context);
  double y = lengths.notice_frame + lengths.notice_above;
  Content word;
  Content text;
  const auto set = [&](Line& line, double x, double baseline, Content& content) {
    move(line.marks, {side + x, baseline});
    content.insert(content.end(), line.marks.begin(), line.marks.end());
  };
  for (Line& line : words) {
    const bool shares = is_behind && &line == &words.back() && !lines.empty();
    set(line, 0, y + line.rise, word);
    if (shares) set(lines.front(), used, y + line.rise, text);
    y += line.rise + (shares ? std::max(line.fall, lines.front().fall) : line.fall);
  }
  const std::size_t below = is_behind && !words.empty() ? 1 : 0;
  if (!words.empty() && below < lines.size()) {
    // The word's descenders (0.24 em) stay clear of accented capitals (0.98 em).
    const double reach = 0.24 * context.types().notice_word.size + 0.98 * type.size;
    y += std::max(0.0, reach - words.back().fall - context.rise(type));
  }
  for (std::size_t i = below; i < lines.size(); ++i) {
    set(lines[i], 0, y + lines[i].rise, text);
    y += lines[i].rise + lines[i].fall;
  }
  Fragment fragment;
  fragment.height = y + lengths.notice_below + lengths.notice_frame;
  fragment.draw(frame(width, fragment.height, reversed, context));
  if (!word.empty()) fragment.write(Element::of(Role::paragraph), std::move(word));
  if (!text.empty()) fragment.write(Element::of(Role::paragraph), std::move(text));
  return fragment;
}

}  // namespace

Fragment lay_notice(const Notice& notice, double width, const Context& context) {
  if (notice.runs_in) return lay_run_in(notice, width, context);
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

}  // namespace tub::layout
