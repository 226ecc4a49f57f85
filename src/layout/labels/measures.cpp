#include "layout/labels/measures.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <map>
#include <optional>

#include "layout/type/style.h"

namespace tub::layout {
namespace {

/// Lines of one paragraph whose baselines are closer than this stand on one line.
constexpr double same_line = 0.5;

double luminance(Colour colour) {
  const auto linear = [](std::uint8_t value) {
    const double share = value / 255.0;
    return share <= 0.04045 ? share / 12.92 : std::pow((share + 0.055) / 1.055, 2.4);
  };
  return 0.2126 * linear(colour.red) + 0.7152 * linear(colour.green) + 0.0722 * linear(colour.blue);
}

bool is_red(Colour colour) { return colour.red > 150 && colour.green < 80 && colour.blue < 80; }

/// Each figure's first path, if it is a hazard square: the others lie inside it.
void measure_squares(const Page& page, LabelMeasures& measures) {
  std::map<int, bool> seen;
  for (const Item& item : page.items) {
    const Path* const path = std::get_if<Path>(&item);
    if (path == nullptr || path->element == artifact) continue;
    if (!seen.emplace(path->element, true).second) continue;
    const std::optional<double> side = diamond_side(*path);
    if (!side) continue;
    measures.pictogram_sides_mm.push_back(*side / mm);
    if (!is_red(*path->fill)) ++measures.colourless_frames;
  }
}

bool is_inside(Point point, const Box& box) {
  return point.x >= box.corner.x && point.x <= box.corner.x + box.width &&
         point.y >= box.corner.y && point.y <= box.corner.y + box.height;
}

/// The colour that a text stands on: the last filled box under it, or the paper.
Colour ground_of(const Page& page, const TextRun& run) {
  Colour ground{255, 255, 255};
  for (const Item& item : page.items) {
    if (std::get_if<TextRun>(&item) == &run) break;
    const Box* const box = std::get_if<Box>(&item);
    if (box != nullptr && box->fill && is_inside(run.origin, *box)) ground = *box->fill;
  }
  return ground;
}

}  // namespace

std::optional<double> diamond_side(const Path& path) {
  if (!path.fill || path.segments.size() < 4) return std::nullopt;
  std::vector<Point> corners;
  for (const Segment& segment : path.segments) {
    if (const auto* const move = std::get_if<MoveTo>(&segment)) corners.push_back(move->to);
    if (const auto* const line = std::get_if<LineTo>(&segment)) corners.push_back(line->to);
    if (std::holds_alternative<CurveTo>(segment)) return std::nullopt;
  }
  if (corners.size() != 4) return std::nullopt;
  const double width = std::abs(corners[1].x - corners[3].x);
  const double height = std::abs(corners[2].y - corners[0].y);
  const bool is_on_point = std::abs(corners[0].x - corners[2].x) < 1e-6 * width &&
                           std::abs(corners[1].y - corners[3].y) < 1e-6 * width;
  if (!is_on_point || std::abs(width - height) > 1e-6 * width) return std::nullopt;
  return width / std::sqrt(2.0);
}

double contrast_of(Colour one, Colour other) {
  const double first = luminance(one);
  const double second = luminance(other);
  return (std::max(first, second) + 0.05) / (std::min(first, second) + 0.05);
}

LabelMeasures measure_label(const Page& page, const FontSet& fonts) {
  constexpr double most = std::numeric_limits<double>::max();
  LabelMeasures measures;
  measures.width_mm = page.width / mm;
  measures.height_mm = page.height / mm;
  measures.least_x_height_mm = most;
  measures.least_line_distance = most;
  measures.least_contrast = 21;
  std::map<int, const TextRun*> before;
  for (const Item& item : page.items) {
    const TextRun* const run = std::get_if<TextRun>(&item);
    if (run == nullptr) continue;
    const double x_height = fonts.face(run->face).x_height() * run->size / 1000 / mm;
    measures.least_x_height_mm = std::min(measures.least_x_height_mm, x_height);
    measures.least_contrast =
        std::min(measures.least_contrast, contrast_of(run->colour, ground_of(page, *run)));
    if (run->element == artifact) continue;
    const TextRun*& last = before[run->element];
    const double distance = last == nullptr ? 0 : run->origin.y - last->origin.y;
    if (distance > same_line) {
      measures.least_line_distance = std::min(measures.least_line_distance, distance / run->size);
    }
    last = run;
  }
  measure_squares(page, measures);
  return measures;
}

}  // namespace tub::layout
