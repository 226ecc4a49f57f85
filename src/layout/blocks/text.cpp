// Paragraphs below each other, or spread over one row.
#include <algorithm>
#include <cstddef>
#include <utility>
#include <vector>

#include "layout/blocks/blocks.h"
#include "layout/type/lines.h"

namespace tub::layout {
namespace {

Element element_for(const Paragraph& paragraph) {
  Element element;
  element.language = paragraph.words.language;
  return element;
}

Fragment stacked(const Text& text, double width, const Context& context) {
  Fragment fragment;
  for (const Paragraph& each : text.paragraphs) {
    const Fragment part =
        paragraph(each.words, context.type_of(each.rank), width, context, element_for(each));
    if (fragment.baseline == 0) fragment.baseline = part.baseline;
    fragment.place(part, {0, fragment.height});
    fragment.height += part.height;
  }
  return fragment;
}

/// One row: the paragraphs on one baseline, the free width between them.
void lay_row(Fragment& fragment, const std::vector<Line>& lines, const std::vector<Element>& names,
             double width) {
  double used = 0;
  double rise = 0;
  double fall = 0;
  for (const Line& line : lines) {
    used += line.width;
    rise = std::max(rise, line.rise);
    fall = std::max(fall, line.fall);
  }
  const double gaps = static_cast<double>(lines.size() - 1);
  const double gap = gaps > 0 ? (width - used) / gaps : 0;
  double x = 0;
  for (std::size_t i = 0; i < lines.size(); ++i) {
    Content content = lines[i].marks;
    move(content, {x, fragment.height + rise});
    fragment.write(names[i], std::move(content));
    x += lines[i].width + gap;
  }
  fragment.height += rise + fall;
}

Fragment spread(const Text& text, double width, const Context& context) {
  Fragment fragment;
  std::vector<Line> row;
  std::vector<Element> names;
  double used = 0;
  const double gap = context.lengths().title_gap;
  for (const Paragraph& each : text.paragraphs) {
    Line line = single_line(each.words, context.type_of(each.rank), context);
    if (line.marks.empty()) continue;
    if (line.width > width) context.too_wide(text_of(each.words), line.width - width);
    if (!row.empty() && used + gap + line.width > width) {
      lay_row(fragment, row, names, width);
      row.clear();
      names.clear();
      used = 0;
    }
    used += line.width + (row.empty() ? 0 : gap);
    row.push_back(std::move(line));
    names.push_back(element_for(each));
  }
  if (!row.empty()) lay_row(fragment, row, names, width);
  return fragment;
}

}  // namespace

Fragment lay_text(const Text& text, double width, const Context& context) {
  return text.flow == Text::Flow::spread ? spread(text, width, context)
                                         : stacked(text, width, context);
}

}  // namespace tub::layout
