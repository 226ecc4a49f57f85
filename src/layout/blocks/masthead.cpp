// The head of a sheet: kind and title at the left, the figure at the right, a rule, the facts.
#include <algorithm>
#include <cstddef>
#include <memory>
#include <string>
#include <utility>
#include <vector>

#include "base/text.h"
#include "layout/blocks/blocks.h"
#include "layout/type/lines.h"

namespace tub::layout {
namespace {

/// Writes one line as an element of its own.
void write_line(Fragment& fragment, Line line, Point at, Element element) {
  if (line.marks.empty()) return;
  move(line.marks, at);
  fragment.write(std::move(element), std::move(line.marks));
}

void draw_rule(Fragment& fragment, double width, const Context& context) {
  const Lengths& lengths = context.lengths();
  if (lengths.masthead_rule == 0) return;
  const double y = fragment.height + lengths.rule_above + lengths.masthead_rule / 2;
  fragment.draw(Rule{.from = {0, y},
                     .to = {width, y},
                     .width = lengths.masthead_rule,
                     .colour = context.inks().accent});
  fragment.height += lengths.rule_above + lengths.masthead_rule;
}

/// How far a line's lowest letter hangs below its baseline.
double hang(const Words& words, const Type& type, const Context& context) {
  const Font& font = context.fonts.face(type.face);
  int deepest = 0;
  for (const char32_t c : code_points(text_of(words)).value_or(U"")) {
    if (font.has(c)) deepest = std::max(deepest, font.depth(c));
  }
  return deepest * type.size / 1000;
}

/// A figure in one line; where it is too wide, its unit is set in the short figure's type.
Line fitted_figure(const Words& figure, double width, const Context& context) {
  const Types& types = context.types();
  Line line = single_line(figure, types.figure, context);
  const std::string text = text_of(figure);
  const std::size_t unit = text.find("\u202F", text.find("\u202F") + 1) == std::string::npos
                               ? text.find("\u202F")
                               : text.rfind("\u202F");
  if (line.width <= width || unit == std::string::npos) return line;
  line = single_line(plain(text.substr(0, unit)), types.figure, context);
  Line small = single_line(plain(text.substr(unit)), types.short_figure, context);
  const Point behind{line.width, 0};
  line.width += small.width;
  append(line.marks, std::move(small), behind, context);
  return line;
}

/// A figure alone, at the left.
void lay_figure(Fragment& fragment, const Masthead& masthead, double width,
                const Context& context) {
  const Types& types = context.types();
  Line figure = fitted_figure(masthead.figure, width, context);
  if (figure.width > width) context.too_wide(text_of(masthead.figure), figure.width - width);
  const double rise = context.fonts.bold.cap_height() * types.figure.size / 1000;
  write_line(fragment, std::move(figure), {0, rise}, Element::heading(1));
  fragment.baseline = rise;
  fragment.height = rise + hang(masthead.figure, types.figure, context);
}

/// Kind and title; the figure on the title's last baseline.
void lay_head(Fragment& fragment, const Masthead& masthead, double width, const Context& context) {
  const Types& types = context.types();
  Line figure = single_line(masthead.figure, types.figure, context);
  const double gap = figure.width > 0 ? context.lengths().title_gap : 0;
  const double room = width - figure.width - gap;
  Fragment kind = paragraph(masthead.kind, types.kind, room, context);
  Fragment title = paragraph(masthead.title, types.title, room, context, Element::heading(1));
  // The figure's capitals must not rise above the block: its line is reckoned from their height.
  const double capitals = context.fonts.bold.cap_height() * types.figure.size / 1000;
  const double text_height = kind.height + title.height;
  const double fall = context.fall(types.title);
  const double rise = std::max(text_height - fall, figure.width > 0 ? capitals : 0);
  const double top = rise + fall - text_height;
  fragment.place(kind, {0, top});
  fragment.place(title, {0, top + kind.height});
  write_line(fragment, figure, {width - figure.width, rise}, Element::of(Role::paragraph));
  // Nothing stands closer than a millimetre to the rule below, a "g" of the figure neither.
  const double least = hang(masthead.figure, types.figure, context) + 1 * mm;
  fragment.height = rise + std::max(fall, least - context.lengths().rule_above);
}

/// How many facts, from `first`, stand in one row with a gap.
std::size_t facts_in_row(const std::vector<Line>& facts, std::size_t first, double width,
                         double gap) {
  double used = 0;
  std::size_t count = 0;
  for (std::size_t i = first; i < facts.size(); ++i) {
    used += facts[i].width + (count > 0 ? gap : 0);
    if (count > 0 && used > width) break;
    ++count;
  }
  return count;
}

void lay_facts(Fragment& fragment, const Masthead& masthead, double width, const Context& context) {
  const Lengths& lengths = context.lengths();
  const Type& type = context.types().body;
  std::vector<Line> facts;
  for (const Words& fact : masthead.facts) {
    facts.push_back(single_line(fact, type, context));
    if (facts.back().width > width) context.too_wide(text_of(fact), facts.back().width - width);
  }
  fragment.height += lengths.rule_below;
  std::size_t first = 0;
  while (first < facts.size()) {
    double gap = lengths.fact_gap;
    std::size_t count = facts_in_row(facts, first, width, gap);
    if (first + count < facts.size()) {
      gap = lengths.fact_gap_least;
      count = facts_in_row(facts, first, width, gap);
    }
    const double baseline = fragment.height + context.rise(type);
    double x = 0;
    for (std::size_t i = first; i < first + count; ++i) {
      const double line_width = facts[i].width;
      if (i + 1 == facts.size() && i > first) x = width - line_width;
      write_line(fragment, std::move(facts[i]), {x, baseline}, Element::of(Role::paragraph));
      x += line_width + gap;
    }
    fragment.height += type.leading;
    first += count;
  }
}

/// A logo in its box at the right edge, from the fragment's height downwards.
struct LaidLogo {
  double width = 0;
  double height = 0;
};

LaidLogo lay_logo(Fragment& fragment, const Picture& logo, double right, const Context& context) {
  const Lengths& lengths = context.lengths();
  const double scale =
      std::min(lengths.logo_width / logo.width_px, lengths.logo_height / logo.height_px);
  const LaidLogo size{logo.width_px * scale, logo.height_px * scale};
  const Image image{.corner = {right - size.width, fragment.height + lengths.rule_below},
                    .width = size.width,
                    .height = size.height,
                    .png = std::make_shared<const std::string>(logo.png)};
  fragment.write_figure(Mark{Mark::Kind::figure, {image}, logo.alt});
  return size;
}

/// The facts, and the logo at their right.
void lay_facts_and_logo(Fragment& fragment, const Masthead& masthead, double width,
                        const Context& context) {
  const double top = fragment.height + context.lengths().rule_below;
  LaidLogo logo;
  if (masthead.logo) logo = lay_logo(fragment, *masthead.logo, width, context);
  const double taken = logo.width > 0 ? logo.width + context.lengths().title_gap : 0;
  if (!masthead.facts.empty()) lay_facts(fragment, masthead, width - taken, context);
  fragment.height = std::max(fragment.height, top + logo.height);
}

}  // namespace

Fragment lay_masthead(const Masthead& masthead, double width, const Context& context) {
  Fragment fragment;
  if (masthead.kind.empty() && masthead.title.empty()) {
    lay_figure(fragment, masthead, width, context);
  } else {
    lay_head(fragment, masthead, width, context);
  }
  draw_rule(fragment, width, context);
  if (!masthead.facts.empty() || masthead.logo) {
    lay_facts_and_logo(fragment, masthead, width, context);
  }
  return fragment;
}

Fragment lay_short_masthead(const Masthead& masthead, double width, const Context& context) {
  Fragment fragment;
  const Types& types = context.types();
  Line kind = single_line(masthead.kind, types.kind, context);
  Line figure = single_line(masthead.figure, types.short_figure, context);
  const double gap = context.lengths().title_gap;
  const double title_x = kind.width > 0 ? kind.width + gap : 0;
  const double figure_x = width - figure.width;
  const double room = figure_x - (figure.width > 0 ? gap : 0) - title_x;
  const Fragment title =
      paragraph(masthead.title, types.short_title, room, context, Element::heading(1));
  const double baseline = std::max({kind.rise, title.baseline, figure.rise});
  fragment.height = baseline + std::max({kind.fall, title.height - title.baseline, figure.fall});
  write_line(fragment, std::move(kind), {0, baseline}, Element::of(Role::paragraph));
  fragment.place(title, {title_x, baseline - title.baseline});
  write_line(fragment, std::move(figure), {figure_x, baseline}, Element::of(Role::paragraph));
  draw_rule(fragment, width, context);
  return fragment;
}

}  // namespace tub::layout
