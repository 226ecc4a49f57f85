// A finished page as a value: a size, a flat list of items at their final places, and the tree of
// what they are. Exporters place; they never measure, wrap or align.
#pragma once

#include <cstdint>
#include <memory>
#include <optional>
#include <string>
#include <utility>
#include <variant>
#include <vector>

#include "document/document.h"
#include "layout/type/font.h"

namespace tub::layout {

// All lengths are in points (1/72 in). The origin is the page's upper left corner; y grows down.

struct Colour {
  std::uint8_t red = 0;
  std::uint8_t green = 0;
  std::uint8_t blue = 0;

  friend bool operator==(const Colour&, const Colour&) = default;
};

struct Point {
  double x = 0;
  double y = 0;

  friend bool operator==(const Point&, const Point&) = default;
};

/// An upright rectangle on a page.
struct Area {
  Point corner;  ///< upper left
  double width = 0;
  double height = 0;

  friend bool operator==(const Area&, const Area&) = default;
};

/// An item that belongs to no element: a rule, a stile, a foot line. Readers skip it.
inline constexpr int artifact = -1;

/// Characters of one face, size and colour on one line.
///
/// A space where a line of a paragraph ends is the run's last character and counts in `width`. A
/// soft hyphen (U+00AD) occurs as the last character only, where the line breaks at it: the face
/// draws it as a hyphen. All characters are in the face.
struct TextRun {
  Face face = Face::regular;
  double size = 0;
  Point origin;      ///< the left end of its baseline
  double width = 0;  ///< the sum of its characters' advances
  std::string text;  ///< UTF-8, not empty
  Colour colour;
  int element = artifact;
};

/// A straight line with butt ends, half its width to either side.
struct Rule {
  Point from;
  Point to;
  double width = 0;
  Colour colour;
  int element = artifact;
};

struct Stroke {
  double width = 0;
  Colour colour;

  friend bool operator==(const Stroke&, const Stroke&) = default;
};

/// A rectangle. Its stroke lies half to either side of the edge, with mitred corners.
struct Box {
  Point corner;  ///< upper left
  double width = 0;
  double height = 0;
  std::optional<Colour> fill;
  std::optional<Stroke> stroke;
  int element = artifact;
};

struct MoveTo {
  Point to;
};
struct LineTo {
  Point to;
};
struct CurveTo {
  Point control1;
  Point control2;
  Point to;
};
struct ClosePath {};
using Segment = std::variant<MoveTo, LineTo, CurveTo, ClosePath>;

/// A pattern of equal squares that a path is drawn in.
struct Grid {
  Point corner;
  double pitch = 0;  ///< above 0
};

/// Lines and cubic curves; filled by the non-zero rule (even-odd if told), then stroked with round
/// joins and butt ends. The first segment is a MoveTo.
struct Path {
  std::vector<Segment> segments;
  std::optional<Colour> fill;
  std::optional<Stroke> stroke;
  bool even_odd = false;
  int element = artifact;
  /// Of a path whose points all lie on a grid: where there are dots, its squares are equally many
  /// whole dots wide.
  std::optional<Grid> grid = std::nullopt;
};

/// A picture scaled into a rectangle; what is see-through in it shows white paper.
struct Image {
  Point corner;  ///< upper left
  double width = 0;
  double height = 0;
  std::shared_ptr<const std::string> png;  ///< the file's bytes
  int element = artifact;
};

/// In drawing order: a later item covers an earlier one.
using Item = std::variant<TextRun, Rule, Box, Path, Image>;

/// What an element is, in the terms of tagged PDF (ISO 32000-1, 14.8.4).
enum class Role {
  section,      ///< Sect
  heading,      ///< H1 to H3, by `level`
  paragraph,    ///< P
  list,         ///< L
  list_item,    ///< LI
  label,        ///< Lbl
  list_body,    ///< LBody
  table,        ///< Table
  row,          ///< TR
  header_cell,  ///< TH, heading its column, or its row if it is the first of a plain row
  cell,         ///< TD
  figure,       ///< Figure
  span,         ///< Span
};

/// One node of the page's structure tree.
struct Element {
  enum class Scope { column, row };
  static Element of(Role role, int parent = -1) {
    return {.role = role, .parent = parent, .alt = {}, .language = {}};
  }
  static Element heading(int level) {
    return {.role = Role::heading, .level = level, .alt = {}, .language = {}};
  }
  static Element figure(std::string alt, int parent = -1) {
    return {.role = Role::figure, .parent = parent, .alt = std::move(alt), .language = {}};
  }

  Role role = Role::paragraph;
  int parent = -1;  ///< index in `Page::elements`, smaller than its own; -1 on the root only
  int level = 0;    ///< of a heading: 1, 2 or 3; else 0
  Scope scope = Scope::column;  ///< of a header cell
  int columns = 1;              ///< how many a cell spans
  std::string alt;              ///< alternative text; never empty on a figure
  std::string language;         ///< where it differs from its parent's; else empty
};

/// One printed page.
///
/// `elements` is in reading order (every element stands behind its parent and before what is read
/// after it); element 0 is the root, a section. An element holds either elements or items, never
/// both; only a table's cell may be empty. Items of one element are read in the order of `items`;
/// text runs of one element follow each other with a space between words, so their texts can be
/// joined as they are.
struct Page {
  double width = 0;
  double height = 0;
  std::vector<Item> items;
  std::vector<Element> elements;
  int number = 1;  ///< of `pages`, from 1
  int pages = 1;
  std::optional<Area> trim = std::nullopt;  ///< what is left when it is cut; nothing: all of it
  std::optional<Area> bleed =
      std::nullopt;           ///< how far is printed what is cut off; nothing: `trim`
  bool is_one_sided = false;  ///< a sheet of labels: nothing on its back
  std::string sheet;          ///< identifier of the sheet, for messages
  std::string title;
  std::string language;
  Properties properties;
};

/// The element an item belongs to, or `artifact`.
int element_of(const Item& item);

}  // namespace tub::layout
