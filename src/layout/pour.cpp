// One line of a rung: a tick, the amount to pour now, how long to wait, what to test and expect.
#include <algorithm>
#include <cstddef>
#include <string>
#include <utility>
#include <vector>

#include "layout/ladder.h"
#include "layout/lines.h"
#include "layout/marks.h"

namespace tub {
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

/// Cells of one row around a common baseline, which is found when all are known.
class PourRow {
 public:
  PourRow(const LadderTracks& tracks, const Context& context)
      : tracks_(tracks), context_(context) {}

  void first(const Pour& pour) {
    add_mark(tick_mark(context_.lengths().tick, context_.lengths().tick_drop, context_),
             tracks_.text);
    const Types& types = context_.types();
    Line amount = single_line(plain(pour.amount.text), types.amount, context_);
    Line spoons = single_line(plain(pour.amount.spoons), types.spoons, context_);
    add_amount(std::move(amount), std::move(spoons), tracks_.pour, context_.lengths().spoons_gap,
               types.spoons_under, pour);
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
    Line amount = single_line(plain(pour.amount.text), types.second_amount, context_);
    Line spoons = single_line(plain(pour.amount.spoons), types.second_spoons, context_);
    double amount_x = text_x + condition.width + (condition.width > 0 ? lengths.second_gap : 0);
    if (amount_x + amount.width > tracks_.pour_right && condition.width > 0) {
      add_lines_above(bold_words(pour.condition), text_x);
      rise_ += lengths.outcome_above;
      amount_x = text_x;
    } else {
      add_line(std::move(condition), {text_x, 0});
    }
    add_amount(std::move(amount), std::move(spoons), amount_x, lengths.second_spoons_gap,
               types.second_spoons, pour);
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

  /// The condition in lines of its own, the last of them a line above the amount.
  void add_lines_above(const Words& words, double x) {
    const Types& types = context_.types();
    std::vector<Line> lines = break_lines(words, types.body, tracks_.pour_right - x, context_);
    const double last = -context_.rise(types.second_amount) - context_.fall(types.body);
    for (std::size_t i = 0; i < lines.size(); ++i) {
      const double above = static_cast<double>(lines.size() - 1 - i) * types.body.leading;
      add_line(std::move(lines[i]), {x, last - above});
    }
  }

  /// The amount, its spoons beside it where they fit, else under it.
  void add_amount(Line amount, Line spoons, double x, double gap, const Type& under,
                  const Pour& pour) {
    const double spoons_x = x + amount.width + gap;
    const double over = x + amount.width - tracks_.pour_right;
    if (over > 0) context_.too_wide(pour.amount.text, over);
    add_line(std::move(amount), {x, 0});
    if (spoons.marks.empty()) return;
    if (spoons_x + spoons.width <= tracks_.pour_right) {
      add_line(std::move(spoons), {spoons_x, 0});
      return;
    }
    // Clear of the amount's descenders.
    const double drop = context_.fonts.bold.descent() * context_.types().amount.size / 1000;
    double y = drop + context_.rise(under) * 0.8;
    for (Line& line :
         break_lines(plain(pour.amount.spoons), under, tracks_.pour_right - x, context_)) {
      add_line(std::move(line), {x, y});
      y += under.leading;
    }
  }

  void add_cell(const Words& words, double x, double width, Align align) {
    double y = 0;
    for (Line& line : break_lines(words, context_.types().body, width, context_)) {
      const double shift = align == Align::right ? width - line.width : 0;
      add_line(std::move(line), {x + shift, y});
      y += context_.types().body.leading;
    }
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

}  // namespace tub
