// Draws marks as boxes, rules and paths.
#include "layout/blocks/marks.h"

#include <utility>

namespace tub::layout {
namespace {

/// The control points of a quarter circle lie this far along its tangents, in radii.
/// Source: the usual cubic approximation, 4/3 (sqrt 2 - 1); its error is 0.03 % of the radius.
constexpr double quarter = 0.5522847498;

}  // namespace

Box filled_box(Point corner, double width, double height, Colour fill) {
  return Box{.corner = corner, .width = width, .height = height, .fill = fill, .stroke = {}};
}

double chip_side(const Context& context) {
  return context.lengths().bank + context.lengths().chip_padding;
}

std::vector<Mark> chip_marks(double width, const Type& type, const Context& context) {
  const double top = -context.rise(type);
  const double bank = context.lengths().bank;
  const Inks& inks = context.inks();
  const std::vector<Item> boxes = {filled_box({0, top}, width, type.leading, inks.band),
                                   filled_box({0, top}, bank, type.leading, inks.black),
                                   filled_box({width - bank, top}, bank, type.leading, inks.black)};
  return {Mark{Mark::Kind::ornament, boxes, {}}};
}

Mark tick_mark(double side, double drop, const Context& context) {
  const double line = context.lengths().tick_line;
  const Box box{.corner = {line / 2, drop - side + line / 2},
                .width = side - line,
                .height = side - line,
                .fill = {},
                .stroke = Stroke{line, context.inks().black}};
  return {Mark::Kind::figure, {box}, context.document.alternatives.tick};
}

Mark triangle_mark(const std::string& alt, const Context& context) {
  const Lengths& lengths = context.lengths();
  const double w = lengths.triangle_width;
  const double h = lengths.triangle_height;
  const double foot = lengths.triangle_drop;
  const double top = foot - h;
  const double line = 0.1 * h;
  const double x = w / 2;
  const Colour black = context.inks().black;
  Path outline;
  outline.segments = {MoveTo{{x, top + line}}, LineTo{{w - line * 0.7, foot - line * 0.6}},
                      LineTo{{line * 0.7, foot - line * 0.6}}, ClosePath{}};
  outline.stroke = Stroke{line, black};
  Path stroke;
  stroke.segments = {
      MoveTo{{x - 0.055 * h, top + 0.36 * h}}, LineTo{{x + 0.055 * h, top + 0.36 * h}},
      LineTo{{x + 0.03 * h, top + 0.67 * h}}, LineTo{{x - 0.03 * h, top + 0.67 * h}}, ClosePath{}};
  stroke.fill = black;
  Path dot = circle({x, top + 0.78 * h}, 0.055 * h);
  dot.fill = black;
  return {Mark::Kind::figure, {outline, stroke, dot}, alt};
}

Mark arrow_mark(const std::string& alt, const Context& context) {
  const double w = context.lengths().arrow_width;
  const double h = context.lengths().arrow_height;
  // Level with the middle of the amount's figures.
  const Type& amount = context.types().table_amount;
  const double y = -context.fonts.bold.cap_height() * amount.size / 2000;
  const Rule shaft{
      .from = {0, y}, .to = {0.85 * w, y}, .width = 0.15 * h, .colour = context.inks().black};
  Path head;
  head.segments = {MoveTo{{0.72 * w, y - 0.4 * h}}, LineTo{{w, y}}, LineTo{{0.72 * w, y + 0.4 * h}},
                   ClosePath{}};
  head.fill = context.inks().black;
  return {Mark::Kind::figure, {shaft, head}, alt};
}

Mark fill_mark(double width, const std::string& alt, const Context& context) {
  const double y = 0.4 * mm;
  const Rule line{.from = {0, y},
                  .to = {width, y},
                  .width = context.lengths().hairline,
                  .colour = context.inks().black};
  return {Mark::Kind::figure, {line}, alt};
}

Path circle(Point c, double r) {
  const double k = quarter * r;
  Path path;
  path.segments = {MoveTo{{c.x + r, c.y}},
                   CurveTo{{c.x + r, c.y + k}, {c.x + k, c.y + r}, {c.x, c.y + r}},
                   CurveTo{{c.x - k, c.y + r}, {c.x - r, c.y + k}, {c.x - r, c.y}},
                   CurveTo{{c.x - r, c.y - k}, {c.x - k, c.y - r}, {c.x, c.y - r}},
                   CurveTo{{c.x + k, c.y - r}, {c.x + r, c.y - k}, {c.x + r, c.y}},
                   ClosePath{}};
  return path;
}

}  // namespace tub::layout
