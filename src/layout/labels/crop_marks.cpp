// Crop marks of single labels and of sheets.
#include "layout/labels/crop_marks.h"

#include <algorithm>
#include <cmath>
#include <map>

#include "layout/type/style.h"

namespace tub::layout {
namespace {

// From memory, as presses have them: thin lines of some millimetres that begin clear of the edge.
constexpr double mark_length_mm = 3;
constexpr double mark_gap_mm = 1;
constexpr double mark_width = 0.25 * mm;

void line(Page& page, Point from, Point to) {
  page.items.emplace_back(Rule{from, to, mark_width, Colour{}, artifact});
}

/// Marks left and right of an area, at one height.
void level_marks(Page& page, double left, double right, double y, double gap) {
  const double length = mark_length_mm * mm;
  line(page, {left - gap - length, y}, {left - gap, y});
  line(page, {right + gap, y}, {right + gap + length, y});
}

void upright_marks(Page& page, double top, double foot, double x, double gap) {
  const double length = mark_length_mm * mm;
  line(page, {x, top - gap - length}, {x, top - gap});
  line(page, {x, foot + gap}, {x, foot + gap + length});
}

/// Places along one axis, those of labels that touch taken once.
class Places {
 public:
  void add(double place) { places_.emplace(std::lround(place * 100), place); }
  std::vector<double> all() const {
    std::vector<double> result;
    for (const auto& [rounded, place] : places_) result.push_back(place);
    return result;
  }

 private:
  std::map<long, double> places_;  // by hundredths of a point
};

double gap_beside(double bleed) { return std::max(bleed, mark_gap_mm * mm); }

}  // namespace

Point corner_of(const LabelGrid& grid, int position) {
  return {(grid.left_mm + position % grid.columns * grid.pitch_x_mm) * mm,
          (grid.top_mm + position / grid.columns * grid.pitch_y_mm) * mm};
}

double margin_around(const Imposition& imposition) {
  if (imposition.crop_marks == CropMarks::none) return imposition.bleed_mm;
  return std::max(imposition.bleed_mm, mark_gap_mm) + mark_length_mm;
}

void add_crop_marks(Page& page, double bleed) {
  const auto [corner, width, height] = *page.trim;
  const double gap = gap_beside(bleed);
  for (const double y : {corner.y, corner.y + height}) {
    level_marks(page, corner.x, corner.x + width, y, gap);
  }
  for (const double x : {corner.x, corner.x + width}) {
    upright_marks(page, corner.y, corner.y + height, x, gap);
  }
}

void add_crop_marks(Page& sheet, const Stock& stock, const Imposition& imposition) {
  const LabelGrid& grid = *stock.grid;
  const PrinterCorrection& correction = imposition.correction;
  const double gap = gap_beside(imposition.bleed_mm * mm);
  const auto across = [&](double x) { return x / correction.width - correction.right_mm * mm; };
  const auto down = [&](double y) { return y / correction.height - correction.down_mm * mm; };
  const Point first = corner_of(grid, 0);
  const Point last = corner_of(grid, grid.labels() - 1);
  const double wide = grid.label_width_mm * mm;
  const double high = grid.label_height_mm * mm;
  Places columns;
  Places rows;
  for (int position = 0; position < grid.labels(); ++position) {
    const Point corner = corner_of(grid, position);
    columns.add(across(corner.x));
    columns.add(across(corner.x) + wide);
    rows.add(down(corner.y));
    rows.add(down(corner.y) + high);
  }
  for (const double y : rows.all()) {
    level_marks(sheet, across(first.x), across(last.x) + wide, y, gap);
  }
  for (const double x : columns.all()) {
    upright_marks(sheet, down(first.y), down(last.y) + high, x, gap);
  }
}

}  // namespace tub::layout
