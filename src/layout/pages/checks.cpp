// Finds items that overlap, that leave the page, and elements that break the tree's promises.
#include "layout/pages/checks.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <string_view>

#include "base/text.h"

namespace tub::layout {
namespace {

/// Touching is not overlapping; rounding is not touching.
constexpr double tolerance = 0.02;

void include(Bounds& bounds, Point p) {
  bounds = {std::min(bounds.left, p.x), std::min(bounds.top, p.y), std::max(bounds.right, p.x),
            std::max(bounds.bottom, p.y)};
}

Bounds grown(Bounds b, double by) { return {b.left - by, b.top - by, b.right + by, b.bottom + by}; }

/// How far the characters reach above and below the baseline, in em.
/// Source: outlines of Noto Sans: capitals 0.714, ascenders 0.766, accented
/// small letters 0.8, accented capitals 0.98,
/// descenders 0.24 (rounded up).
struct InkReach {
  double above = 0.77;
  double below = 0.02;
};

InkReach reach_of(const std::string& text) {
  constexpr std::string_view deep = "gjpqyQ,;()[]{}|/@_$";
  InkReach reach;
  for (const char32_t c : code_points(text).value_or(std::u32string())) {
    const bool is_space = c == 0x2007 || c == 0x2009 || c == 0x202F;
    const bool is_low_sign = c == 0xD7 || c == 0xF7;  // × and ÷ stand among the accented letters
    if (is_space || is_low_sign) continue;
    const bool accented_capital = (c >= 0xC0 && c < 0xDF) || (c >= 0x100 && c < 0x250);
    if (c >= 0xC0) reach.above = std::max(reach.above, accented_capital ? 0.98 : 0.8);
    if (c < 0x80 ? deep.find(static_cast<char>(c)) != deep.npos : c < 0x250) reach.below = 0.24;
  }
  return reach;
}

struct FindBounds {
  const FontSet& fonts;

  Bounds operator()(const TextRun& run) const {
    const InkReach reach = reach_of(run.text);
    const std::size_t end = run.text.find_last_not_of(' ');
    const std::size_t spaces =
        end == std::string::npos ? run.text.size() : run.text.size() - end - 1;
    const double space = text_width(fonts.face(run.face), " ", run.size);
    const double width = run.width - static_cast<double>(spaces) * space;
    return {run.origin.x, run.origin.y - reach.above * run.size, run.origin.x + width,
            run.origin.y + reach.below * run.size};
  }
  Bounds operator()(const Rule& rule) const {
    Bounds bounds{rule.from.x, rule.from.y, rule.from.x, rule.from.y};
    include(bounds, rule.to);
    const double half = rule.width / 2;
    const bool level = rule.from.y == rule.to.y;
    const bool upright = rule.from.x == rule.to.x;
    if (!upright) bounds = {bounds.left, bounds.top - half, bounds.right, bounds.bottom + half};
    if (!level) bounds = {bounds.left - half, bounds.top, bounds.right + half, bounds.bottom};
    return bounds;
  }
  Bounds operator()(const Box& box) const {
    const Bounds bounds{box.corner.x, box.corner.y, box.corner.x + box.width,
                        box.corner.y + box.height};
    return grown(bounds, box.stroke ? box.stroke->width / 2 : 0);
  }
  Bounds operator()(const Image& image) const {
    return {image.corner.x, image.corner.y, image.corner.x + image.width,
            image.corner.y + image.height};
  }
  Bounds operator()(const Path& path) const {
    const Point first = std::get<MoveTo>(path.segments.front()).to;
    Bounds bounds{first.x, first.y, first.x, first.y};
    for (const Segment& segment : path.segments) add(bounds, segment);
    return grown(bounds, path.stroke ? path.stroke->width / 2 : 0);
  }
  /// Where the next segment begins.
  static void follow(Point& from, const Segment& segment) {
    if (const auto* const move = std::get_if<MoveTo>(&segment)) from = move->to;
    if (const auto* const line = std::get_if<LineTo>(&segment)) from = line->to;
    if (const auto* const curve = std::get_if<CurveTo>(&segment)) from = curve->to;
  }
  /// The control points hold a curve.
  static void add(Bounds& bounds, const Segment& segment) {
    if (const auto* const move = std::get_if<MoveTo>(&segment)) include(bounds, move->to);
    if (const auto* const line = std::get_if<LineTo>(&segment)) include(bounds, line->to);
    if (const auto* const curve = std::get_if<CurveTo>(&segment)) {
      include(bounds, curve->control1);
      include(bounds, curve->control2);
      include(bounds, curve->to);
    }
  }
};

bool meet(const Bounds& a, const Bounds& b) {
  return a.left < b.right - tolerance && b.left < a.right - tolerance &&
         a.top < b.bottom - tolerance && b.top < a.bottom - tolerance;
}

bool holds(const Bounds& outer, const Bounds& inner) {
  return outer.left <= inner.left + tolerance && outer.top <= inner.top + tolerance &&
         outer.right >= inner.right - tolerance && outer.bottom >= inner.bottom - tolerance;
}

const TextRun* text_in(const Item& item) { return std::get_if<TextRun>(&item); }

std::string named(const Item& item) {
  if (const TextRun* const run = text_in(item)) return "\"" + run->text + "\"";
  constexpr std::string_view kinds[] = {"text", "a rule", "a box", "a path", "a picture"};
  return std::string(kinds[item.index()]);
}

std::string at(const Bounds& b) {
  return fmt::format("at {},{} pt", fixed(b.left, 1), fixed(b.top, 1));
}

class Overlap {
 public:
  Overlap(const Item& a, const Bounds& a_bounds, const Item& b, const Bounds& b_bounds)
      : a_(a), a_bounds_(a_bounds), b_(b), b_bounds_(b_bounds) {}

  bool wrong() const {
    if (!meet(a_bounds_, b_bounds_)) return false;
    if (text_in(a_) && text_in(b_)) return true;
    if (text_in(a_)) return text_on(a_bounds_, b_, b_bounds_);
    if (text_in(b_)) return text_on(b_bounds_, a_, a_bounds_);
    const int a = element_of(a_);
    const int b = element_of(b_);
    return a != artifact && b != artifact && a != b;
  }

 private:
  /// Whether a text may not stand where another item is: it may stand wholly inside a box, and
  /// between the strokes of a path that is not filled.
  static bool text_on(const Bounds& text, const Item& other, const Bounds& bounds) {
    const Path* const path = std::get_if<Path>(&other);
    if (path && !path->fill) return text_on_stroke(text, *path);
    const Box* const box = std::get_if<Box>(&other);
    if (!box) return true;
    const double frame = box->stroke ? box->stroke->width : 0;
    return !holds(grown(bounds, -frame), text);
  }

  /// A slanting line in short pieces, each in its own rectangle.
  static bool text_on_line(const Bounds& text, Point from, Point to, double width) {
    constexpr int pieces = 64;
    for (int i = 0; i < pieces; ++i) {
      const auto at = [&](int step) {
        const double t = static_cast<double>(step) / pieces;
        return Point{from.x + t * (to.x - from.x), from.y + t * (to.y - from.y)};
      };
      Bounds bounds{at(i).x, at(i).y, at(i).x, at(i).y};
      include(bounds, at(i + 1));
      if (meet(text, grown(bounds, width / 2))) return true;
    }
    return false;
  }

  static bool text_on_stroke(const Bounds& text, const Path& path) {
    Point from = std::get<MoveTo>(path.segments.front()).to;
    for (const Segment& segment : path.segments) {
      if (const auto* const line = std::get_if<LineTo>(&segment)) {
        if (text_on_line(text, from, line->to, path.stroke->width)) return true;
      } else if (const auto* const curve = std::get_if<CurveTo>(&segment)) {
        Bounds bounds{from.x, from.y, from.x, from.y};
        FindBounds::add(bounds, *curve);
        if (meet(text, grown(bounds, path.stroke->width / 2))) return true;
      }
      FindBounds::follow(from, segment);
    }
    return false;
  }

  const Item& a_;
  const Bounds& a_bounds_;
  const Item& b_;
  const Bounds& b_bounds_;
};

}  // namespace

Bounds bounds_of(const Item& item, const FontSet& fonts) {
  return std::visit(FindBounds{fonts}, item);
}

std::vector<std::string> overlaps(const Page& page, const FontSet& fonts) {
  std::vector<Bounds> bounds;
  for (const Item& item : page.items) bounds.push_back(bounds_of(item, fonts));
  std::vector<std::string> found;
  for (std::size_t i = 0; i < page.items.size(); ++i) {
    for (std::size_t j = i + 1; j < page.items.size(); ++j) {
      if (!Overlap(page.items[i], bounds[i], page.items[j], bounds[j]).wrong()) continue;
      found.push_back(fmt::format("{} {} overlaps {} {}", named(page.items[i]), at(bounds[i]),
                                  named(page.items[j]), at(bounds[j])));
    }
  }
  return found;
}

std::vector<std::string> outside(const Page& page, const FontSet& fonts, double margin) {
  const Bounds inner = grown({0, 0, page.width, page.height}, -margin);
  std::vector<std::string> found;
  for (const Item& item : page.items) {
    const Bounds bounds = bounds_of(item, fonts);
    if (!holds(inner, bounds)) found.push_back(named(item) + " " + at(bounds) + " leaves the page");
  }
  return found;
}

}  // namespace tub::layout
