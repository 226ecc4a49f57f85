// A part of a page with an origin of its own: what each block is laid out into before it is placed.
#pragma once

#include <string>
#include <vector>

#include "layout/pages/page.h"

namespace tub::layout {

/// Items that are read as one thing: a run of text, or a figure with its alternative text; or
/// items that are not read at all.
struct Mark {
  enum class Kind { text, figure, ornament };
  Kind kind = Kind::text;
  std::vector<Item> items;
  std::string alt;  ///< of a figure
};

/// What one element holds, in reading order.
using Content = std::vector<Mark>;

/// Items and elements around an origin at the upper left. An element whose parent is -1 belongs to
/// whatever the fragment is placed in.
struct Fragment {
  double height = 0;
  double baseline = 0;  ///< of its first line, below the origin
  std::vector<Item> items;
  std::vector<Element> elements;

  /// Adds an element and returns its index.
  int add(Element element);
  /// Adds an element with its content. Where figures stand among text, the element gets parts of
  /// its own: spans and figures.
  void write(Element element, Content content);
  /// Adds a figure with the mark's alternative text.
  void write_figure(Mark mark, int parent = -1);
  template <class Kind>
  void draw(Kind item) {
    items.emplace_back(std::move(item));
  }
  /// Copies a fragment, moved, its open elements hung on `parent`. Its height is left alone.
  void place(const Fragment& part, Point at, int parent = -1);
};

/// The item moved by so much.
Item moved(Item item, Point by);
/// All items of a content moved by so much.
void move(Content& content, Point by);

}  // namespace tub::layout
