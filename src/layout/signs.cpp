// Pictograms in a row beside a text, or in a column at the left of it.
#include <algorithm>
#include <vector>

#include "layout/blocks.h"
#include "layout/lines.h"
#include "layout/pictograms.h"

namespace tub {
namespace {

/// How far one sign reaches, and all of them with the gaps between.
struct Extent {
  double widest = 0;
  double length = 0;
};

Extent extent_of(const std::vector<Sign>& signs, double side, double gap) {
  Extent extent;
  for (const Sign& sign : signs) {
    const double field = field_side(sign.pictogram, side);
    extent.widest = std::max(extent.widest, field);
    extent.length += field + (extent.length > 0 ? gap : 0);
  }
  return extent;
}

}  // namespace

Fragment lay_signs(const Signs& signs, double width, const Context& context) {
  const Lengths& lengths = context.lengths();
  const double side = signs.side_mm ? *signs.side_mm * mm : lengths.sign;
  const bool row = signs.order == Signs::Order::row;
  const Extent extent = extent_of(signs.signs, side, lengths.sign_gap);
  const double across = row ? extent.length : extent.widest;
  const double down = row ? extent.widest : extent.length;
  const double text_x = across + (across > 0 ? lengths.sign_text_gap : 0);
  const Fragment text = paragraph(signs.text, context.types().body, width - text_x, context);
  Fragment fragment;
  fragment.height = std::max(down, text.height);
  double at = 0;
  for (const Sign& sign : signs.signs) {
    const Point corner = row ? Point{at, (fragment.height - down) / 2} : Point{0, at};
    const double field = field_side(sign.pictogram, side);
    fragment.write_figure(sign_mark(sign, corner, field, context));
    at += field + lengths.sign_gap;
  }
  fragment.place(text, {text_x, row ? (fragment.height - text.height) / 2 : 0});
  return fragment;
}

}  // namespace tub
