// Pictograms in a row beside a text, or in a column at the left of paragraphs that run round it.
#include <algorithm>
#include <cmath>
#include <utility>
#include <vector>

#include "layout/blocks/blocks.h"
#include "layout/blocks/pictograms.h"
#include "layout/type/lines.h"

namespace tub::layout {
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

/// Paragraphs below each other, narrow while they stand beside something.
class RoundText {
 public:
  RoundText(double beside_x, double beside_until, double width, const Context& context)
      : beside_x_(beside_x), beside_until_(beside_until), width_(width), context_(context) {}

  void add(Fragment& fragment, const Paragraph& paragraph) {
    const Type& type = context_.type_of(paragraph.rank);
    if (y_ > 0) y_ += context_.lengths().paragraph_space;
    // A line stands beside the signs if its accented capitals (0.98 em) begin above their foot.
    const double left = beside_until_ - y_ - context_.rise(type) + 0.98 * type.size;
    const int narrow = left > 0 ? static_cast<int>(std::ceil(left / type.leading)) : 0;
    const LineWidths widths{width_ - beside_x_, narrow, width_};
    Content content;
    int number = 0;
    for (Line& line : break_lines(paragraph.words, type, widths, context_)) {
      move(line.marks, {number < narrow ? beside_x_ : 0, y_ + line.rise});
      content.insert(content.end(), line.marks.begin(), line.marks.end());
      y_ += line.rise + line.fall;
      ++number;
    }
    Element element;
    element.language = paragraph.words.language;
    if (!content.empty()) fragment.write(std::move(element), std::move(content));
  }
  double height() const { return y_; }

 private:
  double beside_x_;
  double beside_until_;
  double width_;
  double y_ = 0;
  const Context& context_;
};

Fragment lay_column(const Signs& signs, double side, double width, const Context& context) {
  const Lengths& lengths = context.lengths();
  const Extent extent = extent_of(signs.signs, side, lengths.sign_gap);
  Fragment fragment;
  double at = 0;
  for (const Sign& sign : signs.signs) {
    const double field = field_side(sign.pictogram, side);
    fragment.write_figure(sign_mark(sign, {0, at}, field, context));
    at += field + lengths.sign_gap;
  }
  const double beside = extent.widest + (extent.widest > 0 ? lengths.sign_text_gap : 0);
  RoundText text(beside, extent.length, width, context);
  if (!signs.text.empty()) text.add(fragment, {signs.text, Rank::body});
  for (const Paragraph& paragraph : signs.paragraphs) text.add(fragment, paragraph);
  fragment.height = std::max(extent.length, text.height());
  return fragment;
}

/// The signs and their text; `signs.paragraphs` below them.
Fragment lay_row(const Signs& signs, double side, double width, const Context& context) {
  const Lengths& lengths = context.lengths();
  const Extent extent = extent_of(signs.signs, side, lengths.sign_gap);
  const double text_x = extent.length + (extent.length > 0 ? lengths.sign_text_gap : 0);
  const Fragment text = paragraph(signs.text, context.types().body, width - text_x, context);
  if (signs.text.empty() && extent.length > width + 1e-6) {
    context.too_wide("the pictograms", extent.length - width);
  }
  Fragment fragment;
  fragment.height = std::max(extent.widest, text.height);
  double at = 0;
  for (const Sign& sign : signs.signs) {
    const double field = field_side(sign.pictogram, side);
    const Point corner{at, (fragment.height - extent.widest) / 2};
    fragment.write_figure(sign_mark(sign, corner, field, context));
    at += field + lengths.sign_gap;
  }
  fragment.place(text, {text_x, (fragment.height - text.height) / 2});
  if (signs.paragraphs.empty()) return fragment;
  RoundText below(0, 0, width, context);
  Fragment paragraphs;
  for (const Paragraph& each : signs.paragraphs) below.add(paragraphs, each);
  const double gap = fragment.height > 0 ? lengths.paragraph_space : 0;
  fragment.place(paragraphs, {0, fragment.height + gap});
  fragment.height += gap + below.height();
  return fragment;
}

}  // namespace

Fragment lay_signs(const Signs& signs, double width, const Context& context) {
  const double side = signs.side_mm ? *signs.side_mm * mm : context.lengths().sign;
  return signs.order == Signs::Order::row ? lay_row(signs, side, width, context)
                                          : lay_column(signs, side, width, context);
}

}  // namespace tub::layout
