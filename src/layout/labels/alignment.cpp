// The alignment page: outlines of labels, and rulers from the paper's corner.
#include <fmt/format.h>

#include <algorithm>
#include <numbers>

#include "base/error.h"
#include "base/text.h"
#include "layout/labels/crop_marks.h"
#include "layout/labels/impose.h"
#include "layout/type/style.h"

namespace tub::layout {
namespace {

constexpr double outline_width = 0.25 * mm;
constexpr double number_size = 7;

/// Sheets have both figures of the scale; on smaller stocks the text is small and says less.
constexpr double sheet_side_mm = 200;

/// What differs between a sheet and a single label. Lengths are in millimetres, type in points.
struct Measures {
  double inset =
      8;  ///< of a ruler from the edge, where office printers print (from memory: 4 to 6.4)
  double long_mark = 6;
  int first_mark = 20;  ///< of a ruler, clear of the other one
  double text_size = 9.5;
  double leading = 12;
  double text_width = 110;
  double padding = 3;
};

Measures measures_of(const Stock& stock) {
  if (std::min(stock.width_mm, stock.height_mm) >= sheet_side_mm) return {};
  Measures small{4, 3.5, 15, 7, 8.2, 0, 0.7};
  small.text_width = stock.width_mm - small.inset - small.first_mark;
  return small;
}

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
  path.stroke = Stroke{outline_width, Colour{}};
  return path;
}

/// Words in lines of at most that width, each but the last with the space at its end.
std::vector<std::string> lines_of(const std::string& text, double width, double size,
                                  const Font& face) {
  std::vector<std::string> lines(1);
  for (const std::string& word : split(text, ' ')) {
    const std::string longer = lines.back() + word;
    if (!lines.back().empty() && text_width(face, longer, size) > width) {
      lines.push_back(word + " ");
    } else {
      lines.back() = longer + " ";
    }
  }
  lines.back().pop_back();
  return lines;
}

/// Draws on a page whose numbers nobody needs to hear read.
class AlignmentSheet {
 public:
  AlignmentSheet(const Stock& stock, const AlignmentWords& words, const FontSet& fonts)
      : stock_(stock), fonts_(fonts), measures_(measures_of(stock)) {
    page_.width = stock.width_mm * mm;
    page_.height = stock.height_mm * mm;
    page_.sheet = "alignment_page";
    page_.title = words.title;
    page_.elements = {Element::of(Role::section), Element::heading(1),
                      Element::of(Role::paragraph, 0)};
    page_.elements[1].parent = 0;
  }

  Page draw(const AlignmentWords& words) {
    if (stock_.grid) draw_labels(*stock_.grid);
    draw_ruler(stock_.width_mm, true);
    draw_ruler(stock_.height_mm, false);
    draw_words(words);
    return std::move(page_);
  }

 private:
  void write(const std::string& text, Point at, Face face, double size, int element) {
    page_.items.emplace_back(TextRun{.face = face,
                                     .size = size,
                                     .origin = at,
                                     .width = text_width(fonts_.face(face), text, size),
                                     .text = text,
                                     .colour = {},
                                     .element = element});
  }

  void line(Point from, Point to) {
    page_.items.emplace_back(Rule{from, to, outline_width, Colour{}, artifact});
  }

  /// A mark each millimetre, longer at five and ten, numbered at ten, counted from the paper's
  /// edge.
  void draw_ruler(double length_mm, bool is_across) {
    const double edge = measures_.inset * mm;
    for (int at = measures_.first_mark; at <= length_mm - measures_.inset / 2; ++at) {
      const double mark = measures_.long_mark * (at % 10 == 0 ? 1 : at % 5 == 0 ? 0.7 : 0.4) * mm;
      const double place = at * mm;
      line(is_across ? Point{place, edge} : Point{edge, place},
           is_across ? Point{place, edge + mark} : Point{edge + mark, place});
      if (at % 10 == 0) number(at, is_across, place, edge + mark);
    }
  }

  void number(int value, bool is_across, double place, double end) {
    const std::string text = fmt::format("{}", value);
    const double width = text_width(fonts_.regular, text, number_size);
    const Point at = is_across ? Point{place - width / 2, end + number_size}
                               : Point{end + 0.5 * mm, place + number_size * 0.36};
    write(text, at, Face::regular, number_size, artifact);
  }

  void draw_labels(const LabelGrid& grid) {
    constexpr double from_corner = 2 * mm;
    for (int position = 0; position < grid.labels(); ++position) {
      const Point corner = corner_of(grid, position);
      page_.items.emplace_back(outline(grid, corner));
      const std::string text = fmt::format("{}", position + 1);
      const double width = text_width(fonts_.bold, text, number_size);
      write(text,
            {corner.x + grid.label_width_mm * mm - from_corner - width,
             corner.y + grid.label_height_mm * mm - from_corner},
            Face::bold, number_size, artifact);
    }
  }

  /// Title and note in a white field: in the middle of a sheet, between the rulers of a label.
  void draw_words(const AlignmentWords& words) {
    const double size = measures_.text_size;
    const double width = measures_.text_width * mm;
    const auto title = lines_of(words.title, width, size, fonts_.bold);
    const auto note = lines_of(words.note, width, size, fonts_.regular);
    const double height = static_cast<double>(title.size() + note.size()) * measures_.leading;
    const double padding = measures_.padding * mm;
    const bool is_sheet = stock_.width_mm >= sheet_side_mm;
    const double below_ruler = (measures_.inset + measures_.long_mark) * mm + number_size;
    const Point corner =
        is_sheet ? Point{(page_.width - width) / 2, (page_.height - height) / 2}
                 : Point{measures_.first_mark * mm + padding, below_ruler + 2 * padding};
    require_room(corner.y + height + padding);
    page_.items.emplace_back(Box{{corner.x - padding, corner.y - padding},
                                 width + 2 * padding,
                                 height + 2 * padding,
                                 Colour{255, 255, 255},
                                 {},
                                 artifact});
    double baseline = corner.y + 0.8 * measures_.leading;
    for (const std::string& text : title) {
      write(text, {corner.x, baseline}, Face::bold, size, 1);
      baseline += measures_.leading;
    }
    for (const std::string& text : note) {
      write(text, {corner.x, baseline}, Face::regular, size, 2);
      baseline += measures_.leading;
    }
  }

  void require_room(double foot) const {
    if (foot <= page_.height) return;
    throw Error(
        Diagnostic{.message = fmt::format("the words of the alignment page do not fit on {}: "
                                          "{} mm are missing in height",
                                          stock_.name, fixed((foot - page_.height) / mm, 1)),
                   .where = {},
                   .trace = {},
                   .help = "align the printer with a larger label"});
  }

  const Stock& stock_;
  const FontSet& fonts_;
  Measures measures_;
  Page page_;
};

}  // namespace

AlignmentMarks alignment_marks(const Stock& stock) {
  const double shortest_side = std::min(stock.width_mm, stock.height_mm);
  if (shortest_side >= sheet_side_mm) return {100, 50, 150};
  const int place = static_cast<int>((shortest_side - 5) / 10) * 10;
  return {place, place, place};
}

Page alignment_page(const Stock& stock, const AlignmentWords& words, const FontSet& fonts) {
  return AlignmentSheet(stock, words, fonts).draw(words);
}

}  // namespace tub::layout
