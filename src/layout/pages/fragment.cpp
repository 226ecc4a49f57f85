// Puts fragments together, and gives each element its items.
#include "layout/pages/fragment.h"

#include <algorithm>
#include <utility>

namespace tub::layout {
namespace {

Point sum(Point a, Point b) { return {a.x + b.x, a.y + b.y}; }

struct MoveSegment {
  Point by;
  Segment operator()(MoveTo s) const { return MoveTo{sum(s.to, by)}; }
  Segment operator()(LineTo s) const { return LineTo{sum(s.to, by)}; }
  Segment operator()(CurveTo s) const {
    return CurveTo{sum(s.control1, by), sum(s.control2, by), sum(s.to, by)};
  }
  Segment operator()(ClosePath s) const { return s; }
};

struct MoveItem {
  Point by;
  void operator()(TextRun& run) const { run.origin = sum(run.origin, by); }
  void operator()(Rule& rule) const {
    rule.from = sum(rule.from, by);
    rule.to = sum(rule.to, by);
  }
  void operator()(Box& box) const { box.corner = sum(box.corner, by); }
  void operator()(Image& image) const { image.corner = sum(image.corner, by); }
  void operator()(Path& path) const {
    for (Segment& segment : path.segments) segment = std::visit(MoveSegment{by}, segment);
    if (path.grid) path.grid->corner = sum(path.grid->corner, by);
  }
};

void set_element(Item& item, int element) {
  std::visit([&](auto& it) { it.element = element; }, item);
}

bool is_figure(const Mark& mark) { return mark.kind == Mark::Kind::figure; }

}  // namespace

Item moved(Item item, Point by) {
  std::visit(MoveItem{by}, item);
  return item;
}

void move(Content& content, Point by) {
  for (Mark& mark : content) {
    for (Item& item : mark.items) item = moved(std::move(item), by);
  }
}

int Fragment::add(Element element) {
  elements.push_back(std::move(element));
  return static_cast<int>(elements.size()) - 1;
}

void Fragment::write(Element element, Content content) {
  const bool figure = element.role == Role::figure;
  const bool mixed = !figure && std::any_of(content.begin(), content.end(), is_figure);
  const int whole = add(std::move(element));
  int span = mixed ? artifact : whole;
  for (Mark& mark : content) {
    int holder = figure ? whole : artifact;
    if (!figure && is_figure(mark)) {
      holder = add(Element::figure(mark.alt, whole));
      span = artifact;
    } else if (mark.kind == Mark::Kind::text) {
      if (span == artifact) {
        span = add(Element::of(Role::span, whole));
      }
      holder = span;
    }
    for (Item& item : mark.items) {
      set_element(item, holder);
      items.push_back(std::move(item));
    }
  }
}

void Fragment::write_figure(Mark mark, int parent) {
  Element element = Element::figure(mark.alt, parent);
  Content content;
  content.push_back(std::move(mark));
  write(std::move(element), std::move(content));
}

void Fragment::place(const Fragment& part, Point at, int parent) {
  const int offset = static_cast<int>(elements.size());
  for (Element element : part.elements) {
    element.parent = element.parent < 0 ? parent : element.parent + offset;
    elements.push_back(std::move(element));
  }
  for (const Item& item : part.items) {
    Item copy = moved(item, at);
    if (element_of(copy) != artifact) set_element(copy, element_of(copy) + offset);
    items.push_back(std::move(copy));
  }
}

}  // namespace tub::layout
