// Chooses where lines end, and turns pieces into marks.
#include "layout/type/lines.h"

#include <algorithm>
#include <cstddef>
#include <iterator>
#include <limits>
#include <tuple>
#include <utility>

#include "base/text.h"
#include "layout/blocks/marks.h"
#include "layout/type/pieces.h"

namespace tub::layout {
namespace {

/// Rounding of sums must not break a line that fits exactly.
constexpr double tolerance = 1e-6;
/// A last line of one word with fewer characters than this is avoided.
constexpr std::size_t short_word = 9;

/// How bad a choice of breaks is: fewest overfull lines, then fewest lines, then the evenest.
struct Cost {
  int overfull = 0;
  int lines = 0;
  double unevenness = 0;

  friend bool operator<(const Cost& a, const Cost& b) {
    return std::tie(a.overfull, a.lines, a.unevenness) <
           std::tie(b.overfull, b.lines, b.unevenness);
  }
};

/// Widths of pieces set side by side.
class Measure {
 public:
  explicit Measure(const std::vector<Piece>& pieces) : pieces_(pieces), sums_(1, 0.0) {
    for (const Piece& piece : pieces) sums_.push_back(sums_.back() + piece.lead + piece.width);
  }
  /// Of the pieces from `first` up to `end`, as one line.
  double line(std::size_t first, std::size_t end) const {
    const Piece& last = pieces_[end - 1];
    const double hyphen = end < pieces_.size() ? last.hyphen : 0;
    return sums_[end] - sums_[first] - last.width + last.visible + hyphen - pieces_[first].lead;
  }

 private:
  const std::vector<Piece>& pieces_;
  std::vector<double> sums_;
};

bool may_end(const std::vector<Piece>& pieces, std::size_t end) {
  return end == pieces.size() || pieces[end - 1].after != Piece::Break::none;
}

/// The characters of the last word if the line holds one word only; else a long one.
std::size_t only_word(const std::vector<Piece>& pieces, std::size_t first) {
  std::size_t length = 0;
  for (std::size_t i = first; i < pieces.size(); ++i) {
    if (i + 1 < pieces.size() && pieces[i].after == Piece::Break::free) return short_word;
    length += code_points(pieces[i].text).value_or(std::u32string()).size();
  }
  return length;
}

double unevenness(const std::vector<Piece>& pieces, std::size_t first, std::size_t end,
                  double slack) {
  if (end == pieces.size()) return first > 0 && only_word(pieces, first) < short_word ? 10 : 0;
  const double hyphen = pieces[end - 1].after == Piece::Break::soft_hyphen ? 0.2 : 0;
  return slack * slack + hyphen;
}

/// The ends of all lines, as counts of pieces.
std::vector<std::size_t> choose_ends(const std::vector<Piece>& pieces, const LineWidths& widths) {
  const Measure measure(pieces);
  const std::size_t count = pieces.size();
  constexpr int never = std::numeric_limits<int>::max();
  std::vector<Cost> best(count + 1, Cost{never, 0, 0});
  std::vector<std::size_t> from(count + 1, 0);
  best[0] = {};
  for (std::size_t end = 1; end <= count; ++end) {
    if (!may_end(pieces, end)) continue;
    for (std::size_t first = end; first-- > 0;) {
      if (best[first].overfull == never) continue;
      const Cost& before = best[first];
      const double width = widths.of(before.lines);
      const double slack = (width - measure.line(first, end)) / std::max(width, 1.0);
      const bool overfull = slack < -tolerance;
      const Cost cost{before.overfull + (overfull ? 1 : 0), before.lines + 1,
                      before.unevenness + unevenness(pieces, first, end, slack)};
      if (cost < best[end]) {
        best[end] = cost;
        from[end] = first;
      }
      if (overfull && widths.narrow_lines == 0) break;
    }
  }
  std::vector<std::size_t> ends;
  for (std::size_t end = count; end > 0; end = from[end]) ends.push_back(end);
  std::reverse(ends.begin(), ends.end());
  return ends;
}

/// The run at the end of the marks, if text of that type can be joined to it.
TextRun* joinable(Content& marks, const Type& type) {
  if (marks.empty() || marks.back().kind != Mark::Kind::text) return nullptr;
  TextRun* run = std::get_if<TextRun>(&marks.back().items.back());
  const bool same =
      run && run->face == type.face && run->size == type.size && run->colour == type.ink;
  return same ? run : nullptr;
}

class LineMaker {
 public:
  explicit LineMaker(const Context& context) : context_(context) {}

  void add(const Piece& piece, bool at_break) {
    if (x_ > 0) x_ += piece.lead;
    for (Mark mark : piece.drawn) {
      Content one = {std::move(mark)};
      move(one, {x_, 0});
      line_.marks.push_back(std::move(one.front()));
    }
    line_.rise = std::max(line_.rise, context_.rise(piece.type));
    line_.fall = std::max(line_.fall, context_.fall(piece.type));
    const bool hyphen = at_break && piece.after == Piece::Break::soft_hyphen;
    add_text(piece, hyphen);
    line_.width = x_ + piece.visible + (hyphen ? piece.hyphen : 0);
    x_ += piece.width;
  }
  Line take() { return std::move(line_); }

 private:
  void add_text(const Piece& piece, bool hyphen) {
    if (piece.text.empty()) return;
    const std::string text = hyphen ? piece.text + "\u00AD" : piece.text;
    const double side = piece.chip ? chip_side(context_) : 0;
    const double width = piece.width - 2 * side + (hyphen ? piece.hyphen : 0);
    TextRun* before =
        piece.chip || chip_before_ || piece.lead > 0 ? nullptr : joinable(line_.marks, piece.type);
    chip_before_ = piece.chip;
    if (before) {
      before->text += text;
      before->width += width;
      return;
    }
    const TextRun run{.face = piece.type.face,
                      .size = piece.type.size,
                      .origin = {x_ + side, 0},
                      .width = width,
                      .text = text,
                      .colour = piece.type.ink};
    line_.marks.push_back(Mark{Mark::Kind::text, {run}, {}});
  }

  const Context& context_;
  Line line_;
  double x_ = 0;
  bool chip_before_ = false;
};

Line make_line(const std::vector<Piece>& pieces, std::size_t first, std::size_t end,
               const Context& context) {
  LineMaker maker(context);
  for (std::size_t i = first; i < end; ++i) {
    maker.add(pieces[i], i + 1 == end && end < pieces.size());
  }
  return maker.take();
}

double aligned(double width, double line, Align align) {
  if (align == Align::left) return 0;
  return align == Align::right ? width - line : (width - line) / 2;
}

void join(Content& content, Line line, Point at) {
  move(line.marks, at);
  content.insert(content.end(), std::make_move_iterator(line.marks.begin()),
                 std::make_move_iterator(line.marks.end()));
}

bool ends_in_space(const std::string& text) { return !text.empty() && text.back() == ' '; }

}  // namespace

Line single_line(const Words& words, const Type& type, const Context& context) {
  const std::vector<Piece> pieces = pieces_of(words, type, context);
  if (pieces.empty()) return {};
  return make_line(pieces, 0, pieces.size(), context);
}

std::vector<Line> break_lines(const Words& words, const Type& type, double width,
                              const Context& context) {
  return break_lines(words, type, LineWidths{width, 0, width}, context);
}

std::vector<Line> break_lines(const Words& words, const Type& type, const LineWidths& widths,
                              const Context& context) {
  const std::vector<Piece> pieces = pieces_of(words, type, context);
  std::vector<Line> lines;
  std::size_t first = 0;
  for (const std::size_t end : choose_ends(pieces, widths)) {
    const double width = widths.of(static_cast<int>(lines.size()));
    lines.push_back(make_line(pieces, first, end, context));
    if (lines.back().width > width + tolerance) {
      context.too_wide(text_of(words), lines.back().width - width);
    }
    first = end;
  }
  return lines;
}

Fragment paragraph(const Words& words, const Type& type, double width, const Context& context,
                   Element element, Align align) {
  Fragment fragment;
  Content content;
  element.language = words.language;
  for (Line& line : break_lines(words, type, width, context)) {
    const double baseline = fragment.height + line.rise;
    if (fragment.baseline == 0) fragment.baseline = baseline;
    fragment.height = baseline + line.fall;
    const double x = aligned(width, line.width, align);
    move(line.marks, {x, baseline});
    content.insert(content.end(), line.marks.begin(), line.marks.end());
  }
  if (!content.empty()) fragment.write(std::move(element), std::move(content));
  return fragment;
}

void append(Content& content, Line line, Point at, const Context& context) {
  if (!content.empty() && content.back().kind == Mark::Kind::text) {
    auto& run = std::get<TextRun>(content.back().items.back());
    if (!ends_in_space(run.text)) {
      run.text += ' ';
      run.width += text_width(context.fonts.face(run.face), " ", run.size);
    }
  }
  join(content, std::move(line), at);
}

void append_lines(Content& content, std::vector<Line> lines, Point first, double leading,
                  const Context& context) {
  for (std::size_t i = 0; i < lines.size(); ++i) {
    const Point at{first.x, first.y + static_cast<double>(i) * leading};
    if (i == 0) {
      append(content, std::move(lines[i]), at, context);
    } else {
      join(content, std::move(lines[i]), at);
    }
  }
}

}  // namespace tub::layout
