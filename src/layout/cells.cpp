// Lays out each kind of cell.
#include "layout/cells.h"

#include <algorithm>
#include <utility>
#include <vector>

#include "layout/marks.h"
#include "layout/pictograms.h"

namespace tub {
namespace {

double shift_of(double width, double used, Align align) {
  if (align == Align::left) return 0;
  return align == Align::right ? width - used : (width - used) / 2;
}

/// Between the descenders of an amount and the spoons under it.
constexpr double under_gap = 0.15 * mm;

class CellMaker {
 public:
  CellMaker(TableRow::Role role, int columns, double width, Align align, const Context& context)
      : role_(role), columns_(columns), width_(width), align_(align), context_(context) {}

  LaidCell operator()(const Words& words) const {
    return {paragraph(words, type(), width_, context_, element(), align_), {}};
  }

  LaidCell operator()(const AmountCell& cell) const {
    const Types& types = context_.types();
    const bool beside = cell.spoons == AmountCell::Spoons::beside;
    Line amount = single_line(plain(cell.amount.text), types.table_amount, context_);
    Line spoons =
        single_line(plain(cell.amount.spoons), beside ? types.body : types.table_spoons, context_);
    Line limit = single_line(plain(cell.limit), types.table_limit, context_);
    const double gap = context_.lengths().second_spoons_gap;
    const double baseline = amount.rise;
    double x = 0;
    LaidCell laid;
    Content content;
    const auto add_beside = [&](Line& line) {
      if (line.marks.empty()) return;
      if (x > 0) x += gap;
      const double end = x + line.width;
      append(content, std::move(line), {x, baseline}, context_);
      x = end;
    };
    laid.fragment.height = baseline + amount.fall;
    add_beside(amount);
    if (beside) add_beside(spoons);
    add_beside(limit);
    check_width(x, cell.amount.text);
    if (!beside && !spoons.marks.empty()) {
      check_width(spoons.width, cell.amount.spoons);
      // Clear of the amount's descenders; see reach in checks.cpp for the proportions.
      const double drop = 0.26 * types.table_amount.size + 0.78 * types.table_spoons.size;
      const Point at{0, baseline + drop + under_gap};
      laid.fragment.height = at.y + spoons.fall;
      append(content, std::move(spoons), at, context_);
    }
    laid.fragment.baseline = baseline;
    laid.fragment.write(element(), std::move(content));
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
    const Type text_type = bold(type());
    Line line = single_line(plain(cell.text), text_type, context_);
    const double side = lengths.target_frame + lengths.chip_padding;
    const double used = line.width + 2 * side;
    check_width(used, cell.text);
    const double x = shift_of(width_, used, align_);
    const double half = lengths.target_frame / 2;
    LaidCell laid;
    laid.fragment.baseline = line.rise + lengths.target_frame;
    laid.fragment.height = laid.fragment.baseline + line.fall + lengths.target_frame;
    laid.fragment.draw(Box{.corner = {x + half, half},
                           .width = used - 2 * half,
                           .height = laid.fragment.height - 2 * half,
                           .fill = {},
                           .stroke = Stroke{lengths.target_frame, context_.inks().black}});
    move(line.marks, {x + side, laid.fragment.baseline});
    laid.fragment.write(element(), std::move(line.marks));
    return laid;
  }

  LaidCell operator()(const SignsCell& cell) const {
    const Lengths& lengths = context_.lengths();
    Content content;
    double x = 0;
    double deepest = 0;
    for (const Sign& sign : cell.signs) {
      const double side = field_side(sign.pictogram, lengths.small_sign);
      if (x > 0) x += lengths.sign_gap;
      content.push_back(sign_mark(sign, {x, 0}, side, context_));
      x += side;
      deepest = std::max(deepest, side);
    }
    check_width(x, "signs");
    LaidCell laid;
    move(content, {shift_of(width_, x, align_), 0});
    laid.fragment.height = deepest;
    // Signs stand level with the middle of the capitals beside them.
    laid.fragment.baseline = deepest / 2 + context_.fonts.regular.cap_height() * type().size / 2000;
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
    laid.fragment =
        paragraph(plain(cell.text), text_type, width_, context_, element(), Align::centre);
    return laid;
  }

 private:
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
  double width_;
  Align align_;
  const Context& context_;
};

}  // namespace

LaidCell lay_cell(const Cell& cell, TableRow::Role role, double width, Align align,
                  const Context& context) {
  LaidCell laid = std::visit(CellMaker(role, cell.columns, width, align, context), cell.content);
  if (laid.fragment.elements.empty()) {
    const bool head = role == TableRow::Role::head;
    laid.fragment.write(Element::of(head ? Role::header_cell : Role::cell), {});
    laid.fragment.elements.front().columns = cell.columns;
  }
  return laid;
}

}  // namespace tub
