// Pictograms in a row beside a text, or in a column at the left of it.
#include <algorithm>
#include <cstddef>

#include "layout/blocks.h"
#include "layout/lines.h"
#include "layout/pictograms.h"

namespace tub {

Fragment lay_signs(const Signs& signs, double width, const Context& context) {
  const Lengths& lengths = context.lengths();
  const double side = signs.side_mm ? *signs.side_mm * mm : lengths.sign;
  const bool row = signs.order == Signs::Order::row;
  const double count = static_cast<double>(signs.signs.size());
  const double length = count > 0 ? count * side + (count - 1) * lengths.sign_gap : 0;
  const double across = row ? length : std::min(length, side);
  const double down = row ? std::min(length, side) : length;
  const double text_x = across + (across > 0 ? lengths.sign_text_gap : 0);
  const Fragment text = paragraph(signs.text, context.types().body, width - text_x, context);
  Fragment fragment;
  fragment.height = std::max(down, text.height);
  double at = 0;
  for (const Sign& sign : signs.signs) {
    const Point corner = row ? Point{at, (fragment.height - down) / 2} : Point{0, at};
    fragment.write_figure(sign_mark(sign, corner, side, context));
    at += side + lengths.sign_gap;
  }
  fragment.place(text, {text_x, row ? (fragment.height - text.height) / 2 : 0});
  return fragment;
}

}  // namespace tub
