// One line of a rung: a tick, the amount to pour now, how long to wait, what to test and expect.
#include <algorithm>
#include <cstddef>
#include <string>
#include <utility>
#include <vector>

#include "layout/blocks/ladder.h"
#include "layout/blocks/marks.h"
#include "layout/type/lines.h"

namespace tub::layout {
namespace {

Words bold_words(const Words& words) {
  Words result;
  result.language = words.language;
  for (const Inline& part : words.parts) {
    const Plain* const text = std::get_if<Plain>(&part);
    result.parts.push_back(text ? Inline(Bold{text->text}) : part);
  }
  return result;
}

/// How an amount and its spoons are set.
struct AmountStyle {
  Type amount;
  Type spoons;
  Type under;  ///< spoons that do not fit beside it
  double gap = 0;
};

/// Cells of one row around a common baseline, which is found when all are known.
class PourRow {
 public:
  PourRow(const LadderTracks& tracks, const Context& context)
      : tracks_(tracks), context_(context) {}

  void first(const Pour& pour) {
    add_mark(tick_mark(context_.lengths().tick, context_.lengths().tick_drop, context_),
             tracks_.text);
    const Types& types = context_.types();
    const AmountStyle style{types.amount, types.spoons, types.spoons_under,
                            context_.lengths().spoons_gap};
    add_amount(pour, style, tracks_.pour, tracks_.pour);
    // All first pours stand equally far apart, with spoons or without.
    rise_ = std::max(rise_, context_.rise(types.amount));
    fall_ = std::max(fall_, context_.fall(types.spoons));
  }

  void second(const Pour& pour) {
    const Lengths& lengths = context_.lengths();
    const Types& types = context_.types();
    add_mark(tick_mark(lengths.small_tick, lengths.small_tick_drop, context_), tracks_.pour);
    const double text_x = tracks_.pour + lengths.small_tick + lengths.tick_gap;
    Line condition = single_line(bold_words(pour.condition), types.body, context_);
    const AmountStyle style{types.second_amount, types.second_spoons, types.second_spoons,
                            lengths.second_spoons_gap};
    const double amount_width = context_.width(pour.amount.text, style.amount);
    double amount_x = text_x + condition.width + (condition.width > 0 ? lengths.second_gap : 0);
    if (amount_x + amount_width > tracks_.pour_right && condition.width > 0) {
      add_lines_above(bold_words(pour.condition), text_x);
      rise_ += lengths.outcome_above;
      amount_x = text_x;
    } else {
      add_line(std::move(condition), {text_x, 0});
    }
    add_amount(pour, style, text_x, amount_x);
    rise_ = std::max(rise_, context_.rise(types.second_amount));
    fall_ = std::max(fall_, context_.fall(types.second_amount));
  }

  void add_wait_test_reading(const Pour& pour) {
    const Type& body = context_.types().body;
    add_cell(bold_words(pour.wait), tracks_.wait, tracks_.wait_width, Align::left);
    add_cell(pour.test, tracks_.test, tracks_.test_width, Align::left);
    add_cell(pour.reading, tracks_.right - tracks_.reading_width, tracks_.reading_width,
             Align::right);
    fall_ = std::max(fall_, context_.fall(body));
  }

  void write(Fragment& fragment, int parent, const std::string& language) {
    const double baseline = fragment.height + rise_;
    move(content_, {0, baseline});
    Element element = Element::of(Role::paragraph, parent);
    element.language = language;
    fragment.write(std::move(element), std::move(content_));
    fragment.height = baseline + fall_;
  }

 private:
  void add_mark(Mark mark, double x) {
    Content one = {std::move(mark)};
    move(one, {x, 0});
    content_.push_back(std::move(one.front()));
  }

  void add_line(Line line, Point at) {
    if (line.marks.empty()) return;
    rise_ = std::max(rise_, line.rise - at.y);
    fall_ = std::max(fall_, line.fall + at.y);
    append(content_, std::move(line), at, context_);
  }

  void add_lines(std::vector<Line> lines, Point first, double leading) {
    if (lines.empty()) return;
    const double below = first.y + static_cast<double>(lines.size() - 1) * leading;
    rise_ = std::max(rise_, lines.front().rise - first.y);
    fall_ = std::max(fall_, lines.back().fall + below);
    append_lines(content_, std::move(lines), first, leading, context_);
  }

  /// The condition in lines of its own, the last of them a line above the amount.
  void add_lines_above(const Words& words, double x) {
    const Types& types = context_.types();
    std::vector<Line> lines = break_lines(words, types.body, tracks_.pour_right - x, context_);
    const double last = -context_.rise(types.second_amount) - context_.fall(types.body);
    const double above = static_cast<double>(lines.size() - 1) * types.body.leading;
    add_lines(std::move(lines), {x, last - above}, types.body.leading);
  }

  /// The amount, its spoons beside it where they fit, else under it.
  void add_amount(const Pour& pour, const AmountStyle& style, double least_x, double x) {
    Line amount = single_line(plain(pour.amount.text), style.amount, context_);
    Line spoons = single_line(plain(pour.amount.spoons), style.spoons, context_);
    const Type& under = style.under;
    const double spoons_x = x + amount.width + style.gap;
    const double over = x + amount.width - tracks_.pour_right;
    if (over > 0) context_.too_wide(pour.amount.text, over);
    add_line(std::move(amount), {x, 0});
    if (spoons.marks.empty()) return;
    if (spoons_x + spoons.width <= tracks_.pour_right) {
      add_line(std::move(spoons), {spoons_x, 0});
      return;
    }
    // Under it, clear of its descenders (0.24 em) whatever accents the spoons have (0.98 em);
    // further left if the amount stands far to the right.
    const double drop = 0.25 * style.amount.size + under.size;
    const double left = x + spoons.width <= tracks_.pour_right ? x : least_x;
    add_lines(break_lines(plain(pour.amount.spoons), under, tracks_.pour_right - left, context_),
              {left, drop}, under.leading);
  }

  void add_cell(const Words& words, double x, double width, Align align) {
    const Type& body = context_.types().body;
    std::vector<Line> lines = break_lines(words, body, width, context_);
    for (Line& line : lines) {
      if (align == Align::right) move(line.marks, {width - line.width, 0});
    }
    add_lines(std::move(lines), {x, 0}, body.leading);
  }

  const LadderTracks& tracks_;
  const Context& context_;
  Content content_;
  double rise_ = 0;
  double fall_ = 0;
};

}  // namespace

void lay_pour(Fragment& fragment, const Pour& pour, const LadderTracks& tracks, int parent,
              const Context& context) {
  PourRow row(tracks, context);
  if (pour.turn == Pour::Turn::second) {
    row.second(pour);
  } else {
    row.first(pour);
  }
  row.add_wait_test_reading(pour);
  row.write(fragment, parent, pour.test.language);
}

}  // namespace tub::layout
