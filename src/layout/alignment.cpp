// The alignment page: outlines of labels, and rulers from the paper's corner.
#include <fmt/format.h>

#include <algorithm>
#include <numbers>

#include "layout/impose.h"
#include "layout/style.h"

namespace tub {
namespace {

constexpr double line_width = 0.25 * mm;
constexpr double number_size = 7;
constexpr double text_size = 9.5;
constexpr double text_leading = 12;

/// How far a quarter of a circle's control points lie from its ends, in radii.
constexpr double quarter = 4.0 / 3.0 * (std::numbers::sqrt2 - 1);

Path outline(const LabelGrid& grid, Point corner) {
  const double right = corner.x + grid.label_width_mm * mm;
  const double foot = corner.y + grid.label_height_mm * mm;
  const double r = grid.corner_radius_mm * mm;
  const double k = r * (1 - quarter);
  const auto [x, y] = corner;
  Path path;
  path.segments = {MoveTo{{x + r, y}},
                   LineTo{{right - r, y}},
                   CurveTo{{right - k, y}, {right, y + k}, {right, y + r}},
                   LineTo{{right, foot - r}},
                   CurveTo{{right, foot - k}, {right - k, foot}, {right - r, foot}},
                   LineTo{{x + r, foot}},
                   CurveTo{{x + k, foot}, {x, foot - k}, {x, foot - r}},
                   LineTo{{x, y + r}},
                   CurveTo{{x, y + k}, {x + k, y}, {x + r, y}},
                   ClosePath{}};
  path.stroke = Stroke{line_width, Colour{}};
  return path;
}

/// Draws on a page whose numbers nobody needs to hear read.
class AlignmentSheet {
 public:
  AlignmentSheet(const Stock& stock, const AlignmentWords& words, const FontSet& fonts)
      : stock_(stock), fonts_(fonts) {
    page_.width = stock.width_mm * mm;
    page_.height = stock.height_mm * mm;
    page_.sheet = "alignment_page";
    page_.title = words.title;
    page_.elements = {Element::of(Role::section), Element::heading(1),
                      Element::of(Role::paragraph, 0)};
    page_.elements[1].parent = 0;
  }

  Page draw(const AlignmentWords& words) {
    draw_ruler(stock_.width_mm, true);
    draw_ruler(stock_.height_mm, false);
    if (stock_.grid) draw_labels(*stock_.grid);
    const double x = 20 * mm;
    const double y = 24 * mm;
    write(words.title, {x, y}, Face::bold, text_size, 1);
    write(words.note, {x, y + text_leading}, Face::regular, text_size, 2);
    return std::move(page_);
  }

 private:
  void write(const std::string& text, Point at, Face face, double size, int element) {
    if (text.empty()) return;
    page_.items.emplace_back(TextRun{.face = face,
                                     .size = size,
                                     .origin = at,
                                     .width = text_width(fonts_.face(face), text, size),
                                     .text = text,
                                     .colour = {},
                                     .element = element});
  }

  void line(Point from, Point to) {
    page_.items.emplace_back(Rule{from, to, line_width, Colour{}, artifact});
  }

  /// A mark each millimetre, longer at five and ten, numbered at ten, from the paper's edge.
  void draw_ruler(double length_mm, bool is_across) {
    for (int at = 0; at <= length_mm; ++at) {
      const double mark = (at % 10 == 0 ? 6 : at % 5 == 0 ? 4 : 2.5) * mm;
      const double place = at * mm;
      line(is_across ? Point{place, 0} : Point{0, place},
           is_across ? Point{place, mark} : Point{mark, place});
      if (at == 0 || at % 10 != 0) continue;
      const std::string number = fmt::format("{}", at);
      const double width = text_width(fonts_.regular, number, number_size);
      write(number,
            is_across ? Point{place - width / 2, mark + number_size}
                      : Point{mark + 1 * mm, place + number_size * 0.36},
            Face::regular, number_size, artifact);
    }
  }

  void draw_labels(const LabelGrid& grid) {
    for (int position = 0; position < grid.labels(); ++position) {
      const Point corner{(grid.left_mm + position % grid.columns * grid.pitch_x_mm) * mm,
                         (grid.top_mm + position / grid.columns * grid.pitch_y_mm) * mm};
      page_.items.emplace_back(outline(grid, corner));
      const std::string number = fmt::format("{}", position + 1);
      const double width = text_width(fonts_.bold, number, text_size);
      write(number,
            {corner.x + (grid.label_width_mm * mm - width) / 2,
             corner.y + (grid.label_height_mm * mm + text_size * 0.7) / 2},
            Face::bold, text_size, artifact);
    }
  }

  const Stock& stock_;
  const FontSet& fonts_;
  Page page_;
};

}  // namespace

Page alignment_page(const Stock& stock, const AlignmentWords& words, const FontSet& fonts) {
  return AlignmentSheet(stock, words, fonts).draw(words);
}

}  // namespace tub
