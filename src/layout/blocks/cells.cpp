// Lays out each kind of cell.
#include "layout/blocks/cells.h"

#include <algorithm>
#include <utility>
#include <vector>

#include "layout/blocks/marks.h"
#include "layout/blocks/pictograms.h"

namespace tub::layout {
namespace {

double shift_of(double width, double used, Align align) {
  if (align == Align::left) return 0;
  return align == Align::right ? width - used : (width - used) / 2;
}

/// Between the descenders of an amount and the spoons under it.
constexpr double under_gap = 0.15 * mm;
/// Between a target's frame and what hangs down from the line above.
constexpr double frame_gap = 0.35 * mm;
/// Above and below the word of a pair: the cell is 7 mm high on a card.
constexpr double pair_padding = 1.3 * mm;

/// An amount, and what stands beside it or in lines under it.
class AmountLines {
 public:
  AmountLines(double baseline, double height, const Context& context)
      : baseline_(baseline), height_(height), context_(context) {
    const Types& types = context.types();
    // Clear of the amount's descenders; see reach in checks.cpp for the proportions.
    under_ = baseline + 0.26 * types.table_amount.size + 0.78 * types.table_spoons.size;
  }

  void add_beside(Line line) {
    if (line.marks.empty()) return;
    if (x_ > 0) x_ += context_.lengths().second_spoons_gap;
    const double end = x_ + line.width;
    append(content_, std::move(line), {x_, baseline_}, context_);
    x_ = end;
  }
  void add_under(Line line) {
    const Point at{0, under_ + under_gap};
    height_ = at.y + line.fall;
    under_ += line.rise + line.fall;
    append(content_, std::move(line), at, context_);
  }

  double baseline() const { return baseline_; }
  double height() const { return height_; }
  Content take() { return std::move(content_); }

 private:
  double baseline_;
  double height_;
  double under_ = 0;
  double x_ = 0;
  const Context& context_;
  Content content_;
};

class CellMaker {
 public:
  CellMaker(TableRow::Role role, const Cell& cell, double width, Align align,
            const Context& context)
      : role_(role),
        columns_(cell.columns),
        rank_(cell.rank),
        width_(width),
        align_(align),
        context_(context) {}

  LaidCell operator()(const Words& words) const {
    const Type& set = rank_ == Rank::body ? type() : context_.type_of(rank_);
    return {paragraph(words, set, width_, context_, element(), align_), {}};
  }

  /// What does not fit beside the amount stands under it.
  LaidCell operator()(const AmountCell& cell) const {
    const Types& types = context_.types();
    const double gap = context_.lengths().second_spoons_gap;
    Line amount = single_line(plain(cell.amount.text), types.table_amount, context_);
    Line limit = single_line(plain(cell.limit), types.table_limit, context_);
    Line spoons = single_line(plain(cell.amount.spoons), types.body, context_);
    const double beside_spoons = amount.width + (spoons.marks.empty() ? 0 : gap + spoons.width);
    const bool are_spoons_beside =
        cell.spoons == AmountCell::Spoons::beside && beside_spoons <= width_ + 1e-6;
    const double before_limit = are_spoons_beside ? beside_spoons : amount.width;
    const bool is_limit_beside = are_spoons_beside && before_limit + gap + limit.width <= width_;
    if (!are_spoons_beside) {
      spoons = single_line(plain(cell.amount.spoons), types.table_spoons, context_);
    }
    AmountLines lines(amount.rise, amount.rise + amount.fall, context_);
    add_amount(std::move(amount), cell.amount.text, lines);
    const auto add = [&](Line line, bool is_beside, const std::string& text) {
      if (line.marks.empty()) return;
      if (!is_beside) check_width(line.width, text);
      is_beside ? lines.add_beside(std::move(line)) : lines.add_under(std::move(line));
    };
    add(std::move(spoons), are_spoons_beside, cell.amount.spoons);
    add(std::move(limit), is_limit_beside, cell.limit);
    LaidCell laid;
    laid.fragment.baseline = lines.baseline();
    laid.fragment.height = lines.height();
    laid.fragment.write(element(), lines.take());
    return laid;
  }

  LaidCell operator()(const ArrowCell&) const {
    return drawn(arrow_mark(context_.document.alternatives.arrow, context_),
                 context_.lengths().arrow_width, context_.types().table_amount);
  }

  LaidCell operator()(const TickCell&) const {
    const Lengths& lengths = context_.lengths();
    return drawn(tick_mark(lengths.small_tick, lengths.small_tick_drop, context_),
                 lengths.small_tick, type());
  }

  /// A target in a frame, as wide as its text and a chip's padding.
  LaidCell operator()(const FramedCell& cell) const {
    const Lengths& lengths = context_.lengths();
    Line line = single_line(plain(cell.text), context_.types().target, context_);
    const double side = lengths.target_frame + lengths.chip_padding;
    const double used = line.width + 2 * side;
    check_width(used, cell.text);
    const double x = shift_of(width_, used, align_);
    const double half = lengths.target_frame / 2;
    LaidCell laid;
    laid.fragment.baseline = frame_gap + line.rise + lengths.target_frame;
    laid.fragment.height = laid.fragment.baseline + line.fall + frame_gap + lengths.target_frame;
    laid.fragment.draw(Box{.corner = {x + half, frame_gap + half},
                           .width = used - 2 * half,
                           .height = laid.fragment.height - frame_gap - 2 * half,
                           .fill = {},
                           .stroke = Stroke{lengths.target_frame, context_.inks().black}});
    move(line.marks, {x + side, laid.fragment.baseline});
    laid.fragment.write(element(), std::move(line.marks));
    return laid;
  }

  /// Signs in a row, and in further rows where one does not hold them.
  LaidCell operator()(const SignsCell& cell) const {
    const Lengths& lengths = context_.lengths();
    Content content;
    Point at;
    double deepest = 0;  // of the row
    double first = 0;    // the first row's depth
    double widest = 0;
    for (const Sign& sign : cell.signs) {
      const double side = field_side(sign.pictogram, lengths.small_sign);
      if (at.x > 0) at.x += lengths.sign_gap;
      if (at.x > 0 && at.x + side > width_ + 1e-6) {
        at = {0, at.y + deepest + lengths.sign_gap};
        deepest = 0;
      }
      content.push_back(sign_mark(sign, at, side, context_));
      at.x += side;
      deepest = std::max(deepest, side);
      widest = std::max(widest, at.x);
      if (at.y == 0) first = deepest;
    }
    check_width(widest, "signs");
    LaidCell laid;
    move(content, {shift_of(width_, widest, align_), 0});
    laid.fragment.height = at.y + deepest;
    // Signs stand level with the middle of the capitals beside them.
    laid.fragment.baseline = first / 2 + context_.fonts.regular.cap_height() * type().size / 2000;
    laid.fragment.write(element(), std::move(content));
    return laid;
  }

  LaidCell operator()(const PairCell& cell) const {
    Type text_type = type();
    LaidCell laid;
    if (cell.severity != PairCell::Severity::apart) text_type.face = Face::bold;
    if (cell.severity == PairCell::Severity::harm) laid.ground = LaidCell::Ground::frame;
    if (cell.severity == PairCell::Severity::deadly) {
      laid.ground = LaidCell::Ground::black;
      text_type.ink = context_.inks().paper;
    }
    const Fragment text =
        paragraph(plain(cell.text), text_type, width_, context_, element(), Align::centre);
    laid.fragment.place(text, {0, pair_padding});
    laid.fragment.baseline = text.baseline + pair_padding;
    laid.fragment.height = text.height + 2 * pair_padding;
    return laid;
  }

 private:
  /// An amount that is too wide has its unit in smaller type behind it, or below it.
  void add_amount(Line amount, const std::string& text, AmountLines& lines) const {
    const std::size_t unit = text.find("\u202F");
    if (amount.width <= width_ + 1e-6 || unit == std::string::npos) {
      check_width(amount.width, text);
      return lines.add_beside(std::move(amount));
    }
    const Types& types = context_.types();
    Line number = single_line(plain(text.substr(0, unit)), types.table_amount, context_);
    const std::string rest = text.substr(unit + std::string_view("\u202F").size());
    Line small = single_line(plain(rest), types.table_limit, context_);
    const double both = number.width + context_.lengths().second_spoons_gap + small.width;
    lines.add_beside(std::move(number));
    if (both <= width_) return lines.add_beside(std::move(small));
    check_width(small.width, text);
    lines.add_under(std::move(small));
  }

  Element element() const {
    const bool head = role_ == TableRow::Role::head;
    Element cell = Element::of(head ? Role::header_cell : Role::cell);
    cell.columns = columns_;
    return cell;
  }

  Type type() const {
    if (role_ == TableRow::Role::head) return context_.types().small;
    return role_ == TableRow::Role::band ? bold(context_.types().body) : context_.types().body;
  }

  void check_width(double used, const std::string& what) const {
    if (used > width_ + 1e-6) context_.too_wide(what, used - width_);
  }

  LaidCell drawn(Mark mark, double used, const Type& beside) const {
    check_width(used, "a drawn sign");
    LaidCell laid;
    laid.fragment.baseline = context_.rise(beside);
    laid.fragment.height = beside.leading;
    Content content;
    content.push_back(std::move(mark));
    move(content, {shift_of(width_, used, align_), laid.fragment.baseline});
    laid.fragment.write(element(), std::move(content));
    return laid;
  }

  TableRow::Role role_;
  int columns_;
  Rank rank_;
  double width_;
  Align align_;
  const Context& context_;
};

}  // namespace

LaidCell lay_cell(const Cell& cell, TableRow::Role role, double width, Align align,
                  const Context& context) {
  LaidCell laid = std::visit(CellMaker(role, cell, width, align, context), cell.content);
  if (laid.fragment.elements.empty()) {
    const bool head = role == TableRow::Role::head;
    laid.fragment.write(Element::of(head ? Role::header_cell : Role::cell), {});
    laid.fragment.elements.front().columns = cell.columns;
  }
  return laid;
}

}  // namespace tub::layout
