// Finished pages as text, for tests.
#include "export/dump.h"

#include <fmt/format.h>

#include <algorithm>
#include <iterator>
#include <limits>
#include <string_view>

#include "base/text.h"

namespace tub::exporting {
namespace {

std::string quoted(std::string_view text) {
  return '"' + replaced(replaced(text, "\\", "\\\\"), "\"", "\\\"") + '"';
}

std::string number(double value) { return fixed(value, 2); }

std::string hex(const Colour& colour) {
  return fmt::format("#{:02X}{:02X}{:02X}", colour.red, colour.green, colour.blue);
}

std::string paint(const std::optional<Colour>& fill, const std::optional<Stroke>& stroke) {
  std::string out;
  if (fill) out += " fill " + hex(*fill);
  if (stroke) out += " stroke " + number(stroke->width) + " " + hex(stroke->colour);
  return out;
}

std::string line(const TextRun& run) {
  return fmt::format("text {} {} width {} {} {} {} {}", number(run.origin.x), number(run.origin.y),
                     number(run.width), run.face == Face::bold ? "bold" : "regular",
                     shortest(run.size), hex(run.colour), quoted(run.text));
}

std::string line(const Rule& rule) {
  return fmt::format("rule {} {} to {} {} width {} {}", number(rule.from.x), number(rule.from.y),
                     number(rule.to.x), number(rule.to.y), number(rule.width), hex(rule.colour));
}

std::string line(const Box& box) {
  return fmt::format("box {} {} size {} x {}{}", number(box.corner.x), number(box.corner.y),
                     number(box.width), number(box.height), paint(box.fill, box.stroke));
}

std::string line(const Image& image) {
  return fmt::format("image {} {} size {} x {}", number(image.corner.x), number(image.corner.y),
                     number(image.width), number(image.height));
}

struct Extent {
  Point low{std::numeric_limits<double>::infinity(), std::numeric_limits<double>::infinity()};
  Point high{-std::numeric_limits<double>::infinity(), -std::numeric_limits<double>::infinity()};

  void hold(const Point& point) {
    low = {std::min(low.x, point.x), std::min(low.y, point.y)};
    high = {std::max(high.x, point.x), std::max(high.y, point.y)};
  }
  void operator()(const MoveTo& move) { hold(move.to); }
  void operator()(const LineTo& straight) { hold(straight.to); }
  void operator()(const CurveTo& curve) {
    hold(curve.control1);
    hold(curve.control2);
    hold(curve.to);
  }
  void operator()(const ClosePath&) {}
};

std::string line(const Path& path) {
  Extent extent;
  for (const Segment& segment : path.segments) std::visit(extent, segment);
  return fmt::format("path {} segments in {} {} to {} {}{}", path.segments.size(),
                     number(extent.low.x), number(extent.low.y), number(extent.high.x),
                     number(extent.high.y), paint(path.fill, path.stroke));
}

std::string_view name(Role role) {
  switch (role) {
    case Role::section:
      return "section";
    case Role::heading:
      return "heading";
    case Role::paragraph:
      return "paragraph";
    case Role::list:
      return "list";
    case Role::list_item:
      return "list_item";
    case Role::label:
      return "label";
    case Role::list_body:
      return "list_body";
    case Role::table:
      return "table";
    case Role::row:
      return "row";
    case Role::header_cell:
      return "header_cell";
    case Role::cell:
      return "cell";
    case Role::figure:
      return "figure";
    case Role::span:
      return "span";
  }
  return "";
}

std::string line(const Element& element) {
  std::string out(name(element.role));
  if (element.role == Role::heading) out += fmt::format(" {}", element.level);
  if (element.role == Role::header_cell)
    out += element.scope == Element::Scope::row ? " row" : " column";
  if (element.columns != 1) out += fmt::format(" spans {}", element.columns);
  if (!element.language.empty()) out += " in " + element.language;
  if (!element.alt.empty()) out += " " + quoted(element.alt);
  return out;
}

void add_line(std::string& out, int depth, const std::string& text) {
  fmt::format_to(std::back_inserter(out), "{:{}}{}\n", "", 2 * depth, text);
}

void add_items(std::string& out, const Page& page, int element, int depth) {
  for (const Item& item : page.items)
    if (element_of(item) == element)
      add_line(out, depth, std::visit([](const auto& kind) { return line(kind); }, item));
}

void add_page(std::string& out, const Page& page) {
  add_line(out, 0,
           fmt::format("page {} of {} {} {} x {} {} {}", page.number, page.pages, page.sheet,
                       number(page.width), number(page.height), page.language, quoted(page.title)));
  std::vector<int> depths;
  for (std::size_t i = 0; i < page.elements.size(); ++i) {
    const Element& element = page.elements[i];
    depths.push_back(element.parent < 0 ? 1
                                        : depths.at(static_cast<std::size_t>(element.parent)) + 1);
    add_line(out, depths.back(), line(element));
    add_items(out, page, static_cast<int>(i), depths.back() + 1);
  }
  add_line(out, 1, "artifacts");
  add_items(out, page, artifact, 2);
}

}  // namespace

std::string dump_text(std::span<const Page> pages) {
  std::string out;
  for (const Page& page : pages) add_page(out, page);
  return out;
}

}  // namespace tub::exporting
