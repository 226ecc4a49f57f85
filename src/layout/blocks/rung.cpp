// One step of a ladder: key, title and points, hazard and signs, pours, outcomes, notes.
#include <algorithm>
#include <cstddef>
#include <utility>

#include "layout/blocks/blocks.h"
#include "layout/blocks/flow.h"
#include "layout/blocks/ladder.h"
#include "layout/blocks/marks.h"
#include "layout/blocks/pictograms.h"
#include "layout/type/lines.h"

namespace tub::layout {
namespace {

/// Clear paper between a rung's signs and what stands below them.
constexpr double below_signs = 1 * mm;

/// "**Over 150:** stop, call us."
Words outcome_words(const RungOutcome& outcome) {
  Words words;
  words.language = outcome.then.language;
  words.parts.push_back(Bold{text_of(outcome.when)});
  words.parts.push_back(Plain{" "});
  words.parts.insert(words.parts.end(), outcome.then.parts.begin(), outcome.then.parts.end());
  return words;
}

class RungMaker {
 public:
  RungMaker(const Ladder& ladder, const Rung& rung, const LadderTracks& tracks,
            const Context& context)
      : ladder_(ladder),
        rung_(rung),
        tracks_(tracks),
        context_(context),
        lengths_(context.lengths()) {}

  Fragment make() {
    const int item = out_.add(Element::of(Role::list_item));
    draw_line();
    out_.height = lengths_.rung_above;
    find_title();
    lay_key(item);
    body_ = out_.add(Element::of(Role::list_body, item));
    lay_title();
    lay_hazard();
    lay_signs_at_right();
    if (rung_.pours.empty()) lay_notes();
    for (const Pour& pour : rung_.pours) lay_pour(out_, pour, tracks_, body_, context_);
    lay_outcomes();
    if (!rung_.pours.empty()) lay_notes();
    lay_blocks();
    out_.height += lengths_.rung_below;
    return std::move(out_);
  }

 private:
  /// The rung in the opening, and a hairline from there to the right edge.
  void draw_line() {
    const Inks& inks = context_.inks();
    const double stile = lengths_.stile;
    out_.draw(filled_box({0, -stile / 2}, tracks_.key_width, stile, inks.accent));
    out_.draw(Rule{.from = {tracks_.key_width, 0},
                   .to = {tracks_.right, 0},
                   .width = lengths_.hairline,
                   .colour = inks.black});
  }

  double title_x() const { return rung_.tick ? tracks_.pour : tracks_.text; }

  double signs_width() const {
    const double count = static_cast<double>(rung_.signs.size());
    return count > 0 ? count * lengths_.small_sign + (count - 1) * lengths_.sign_gap : 0;
  }

  /// Where titles and hazards end: before the signs.
  double title_right() const {
    return tracks_.right - (rung_.signs.empty() ? 0 : signs_width() + lengths_.gutter);
  }

  void find_title() {
    const Type& type = context_.types().rung_title;
    title_ = break_lines(rung_.title, type, title_right() - title_x(), context_);
    const double tick = rung_.tick ? lengths_.tick : 0;
    // All names of a named ladder stand equally far below their lines, whatever stands beside.
    const bool named = ladder_.key == Ladder::Key::name;
    const double amount = named ? context_.rise(context_.types().amount) : 0;
    baseline_ = out_.height + std::max({context_.rise(type), tick, amount});
  }

  void lay_key(int item) {
    const bool named = ladder_.key == Ladder::Key::name;
    const Type& type = named ? context_.types().named_key : context_.types().key;
    Line key = single_line(rung_.key, type, context_);
    const double inner = tracks_.key_width - 2 * lengths_.stile - 2 * mm;
    if (key.width > inner) context_.too_wide(text_of(rung_.key), key.width - inner);
    const double x = named ? lengths_.name_indent : (tracks_.key_width - key.width) / 2;
    // The middle of a number stands level with the middle of the title's capitals.
    const double taller = type.size - context_.types().rung_title.size;
    const double drop = named ? 0 : context_.fonts.bold.cap_height() * taller / 2000;
    move(key.marks, {x, baseline_ + drop});
    if (!key.marks.empty()) {
      out_.write(Element::of(Role::label, item), std::move(key.marks));
    }
  }

  void lay_title() {
    const Types& types = context_.types();
    if (title_.empty() && !rung_.tick && rung_.aside.empty()) return;
    if (rung_.tick) lay_tick();
    double y = baseline_;
    Content content;
    double end = title_x();
    if (!title_.empty()) {
      const double leading = types.rung_title.leading;
      end = title_x() + title_.back().width;
      y += static_cast<double>(title_.size() - 1) * leading;
      append_lines(content, std::move(title_), {title_x(), baseline_}, leading, context_);
    }
    if (!content.empty()) {
      Element element = Element::heading(2);
      element.parent = body_;
      element.language = rung_.title.language;
      out_.write(std::move(element), std::move(content));
    }
    const double fall = context_.fall(rung_.aside.empty() ? types.rung_title : types.aside);
    out_.height = y + std::max(fall, context_.fall(types.rung_title));
    if (!rung_.aside.empty()) lay_aside({end, y});
  }

  void lay_tick() {
    Content content = {tick_mark(lengths_.tick, lengths_.tick_drop, context_)};
    move(content, {tracks_.text, baseline_});
    out_.write_figure(std::move(content.front()), body_);
  }

  /// The widest gap between points, within reason, with which all stand behind the title; the usual
  /// one if they cannot.
  double aside_gap(double from) const {
    double used = 0;
    double gaps = 1;
    for (const Words& point : rung_.aside) {
      used += single_line(point, context_.types().body, context_).width;
      gaps += text_of(point).ends_with('.') ? 0 : 1;
    }
    const double wide = lengths_.point_gap;
    const double narrow = (title_right() - from - used) / gaps;
    return narrow < wide && narrow >= lengths_.sentence_gap ? narrow : wide;
  }

  /// The point before which a line ends early, so that the last does not stand alone on its line;
  /// past the points where there is no need. Sentences may stand alone.
  std::size_t early_break(double x, double gap) const {
    const std::size_t count = rung_.aside.size();
    std::size_t first_of_line = 0;
    for (std::size_t i = 0; i < count; ++i) {
      if (text_of(rung_.aside[i]).ends_with('.')) return count;
      const double width = single_line(rung_.aside[i], context_.types().body, context_).width;
      if (x + width > title_right() + 1e-6) {
        x = title_x();
        first_of_line = i;
      }
      x += width + gap;
    }
    const bool stands_alone = count > 2 && first_of_line == count - 1;
    return stands_alone ? count - 2 : count;
  }

  /// Points behind the title as far as they fit there, the rest on lines of their own.
  void lay_aside(Point at) {
    const Type& body = context_.types().body;
    const double gap = aside_gap(at.x);
    at.x += gap;
    Flow flow(title_x(), title_right(), gap, at);
    Content content;
    const std::size_t early = early_break(at.x, gap);
    for (std::size_t i = 0; i < rung_.aside.size(); ++i) {
      const Words& point = rung_.aside[i];
      const Line line = single_line(point, body, context_);
      const bool is_first_line = flow.baseline() == at.y;
      if (i == early || (is_first_line && !flow.fits(line))) {
        flow.new_line(is_first_line ? next_line() : body.leading);
      }
      flow.add(content, point, body, context_);
      // Sentences follow each other as in running text.
      if (text_of(point).ends_with('.')) flow.close_up(std::min(gap, lengths_.sentence_gap));
    }
    if (flow.baseline() > at.y) {
      out_.height = std::max(out_.height, flow.baseline() + context_.fall(body));
    }
    Element element = Element::of(Role::paragraph, body_);
    element.language = rung_.aside.front().language;
    if (!content.empty()) out_.write(std::move(element), std::move(content));
  }

  /// From the title's baseline to that of a line of body text below it.
  double next_line() const {
    return context_.fall(context_.types().rung_title) + context_.rise(context_.types().body);
  }

  void lay_hazard() {
    if (rung_.hazard.empty()) return;
    const Type type = bold(context_.types().body);
    const double indent = lengths_.triangle_width + lengths_.triangle_gap;
    const double y = out_.height + context_.rise(type);
    Content content = {triangle_mark(context_.document.alternatives.triangle, context_)};
    move(content, {title_x(), y});
    std::vector<Line> lines =
        break_lines(rung_.hazard, type, title_right() - title_x() - indent, context_);
    const double below = static_cast<double>(lines.size() - 1) * type.leading;
    append_lines(content, std::move(lines), {title_x() + indent, y}, type.leading, context_);
    Element element = Element::of(Role::paragraph, body_);
    element.language = rung_.hazard.language;
    out_.write(std::move(element), std::move(content));
    out_.height = y + below + context_.fall(type) + lengths_.hazard_below;
  }

  void lay_signs_at_right() {
    double x = tracks_.right - signs_width();
    for (const Sign& sign : rung_.signs) {
      out_.write_figure(sign_mark(sign, {x, lengths_.sign_drop}, lengths_.small_sign, context_),
                        body_);
      x += lengths_.small_sign + lengths_.sign_gap;
    }
    if (rung_.signs.empty()) return;
    // A pour's reading begins lower than its amount: it may stand beside the signs' lower edge.
    const double foot = lengths_.sign_drop + lengths_.small_sign + below_signs;
    const Types& types = context_.types();
    const double slack =
        rung_.pours.empty() ? 0 : context_.rise(types.amount) - context_.rise(types.body);
    out_.height = std::max(out_.height, foot - slack);
  }

  void lay_outcomes() {
    if (rung_.outcomes.empty()) return;
    const Type& body = context_.types().body;
    const double y = out_.height + lengths_.outcome_above + context_.rise(body);
    Flow flow(tracks_.pour, tracks_.right, lengths_.outcome_gap, {tracks_.pour, y});
    Content content;
    for (const RungOutcome& outcome : rung_.outcomes) {
      flow.add(content, outcome_words(outcome), body, context_);
    }
    Element element = Element::of(Role::paragraph, body_);
    element.language = rung_.outcomes.front().then.language;
    out_.write(std::move(element), std::move(content));
    out_.height = flow.baseline() + context_.fall(body);
  }

  void lay_notes() {
    if (!rung_.pours.empty() && rung_.outcomes.empty()) out_.height += lengths_.outcome_above;
    const double x = rung_.tick || !rung_.pours.empty() ? tracks_.pour : tracks_.text;
    for (const Words& note : rung_.notes) {
      const Fragment part = paragraph(note, context_.types().body, tracks_.right - x, context_);
      out_.place(part, {x, out_.height}, body_);
      out_.height += part.height;
    }
  }

  /// Blocks below a title, or with their first line beside the key.
  void lay_blocks() {
    if (rung_.blocks.empty()) return;
    const Fragment part = lay_stack(rung_.blocks, tracks_.right - tracks_.text, context_);
    if (out_.height > lengths_.rung_above) {
      out_.height += lengths_.close_space;
    } else {
      out_.height = std::max(out_.height, baseline_ - part.baseline);
    }
    out_.place(part, {tracks_.text, out_.height}, body_);
    out_.height += part.height;
  }

  const Ladder& ladder_;
  const Rung& rung_;
  const LadderTracks& tracks_;
  const Context& context_;
  const Lengths& lengths_;
  Fragment out_;
  std::vector<Line> title_;
  double baseline_ = 0;
  int body_ = 0;
};

}  // namespace

Fragment lay_rung(const Ladder& ladder, const Rung& rung, const LadderTracks& tracks,
                  const Context& context) {
  return RungMaker(ladder, rung, tracks, context).make();
}

}  // namespace tub::layout
