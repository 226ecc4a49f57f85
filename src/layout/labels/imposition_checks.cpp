// Refuses what a sheet, a label or a printer cannot hold.
#include "layout/labels/imposition_checks.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "base/error.h"
#include "base/text.h"
#include "layout/labels/crop_marks.h"
#include "layout/pages/checks.h"
#include "layout/type/style.h"

namespace tub::layout {
namespace {

constexpr double most_shift_mm = 5;
constexpr double most_stretch = 0.02;
constexpr double same_size_mm = 0.01;

/// Places are rounded to less than this when they are printed.
constexpr double rounding_mm = 0.01;

const std::string margin_help =
    "widen the margin on that side: margin_side, margin_top or foot_margin of the style";

void refuse(Problems& problems, std::string message, std::string help) {
  problems.add({.message = std::move(message),
                .where = {},
                .trace = {"putting labels on a sheet"},
                .help = std::move(help)});
}

void check_position(const Stock& stock, int first, Problems& problems) {
  const int positions = stock.grid ? stock.grid->labels() : 1;
  if (first >= 1 && first <= positions) return;
  refuse(problems,
         stock.grid ? fmt::format("position {} is not on the sheet: {} has positions 1 to {}",
                                  first, stock.name, positions)
                    : fmt::format("position {} is not on {}, which is no sheet of labels", first,
                                  stock.name),
         "name the first free position, counted row by row from the upper left");
}

void check_correction(const PrinterCorrection& correction, Problems& problems) {
  for (const auto& [axis, shift] :
       {std::pair{"right", correction.right_mm}, std::pair{"down", correction.down_mm}}) {
    if (std::abs(shift) <= most_shift_mm) continue;
    refuse(problems,
           fmt::format("a correction of {} mm {} is above the {} mm that a printer is off",
                       shortest(shift), axis, shortest(most_shift_mm)),
           "print the alignment page at 100 % and measure again");
  }
  for (const double stretch : {correction.width, correction.height}) {
    if (std::abs(stretch - 1) <= most_stretch) continue;
    refuse(problems,
           fmt::format("a scale of {} is further from 1 than {}", shortest(stretch),
                       shortest(most_stretch)),
           "print at 100 %, without fitting to the page");
  }
}

void check_sizes(std::span<const Page> labels, const Stock& stock, Problems& problems) {
  const Stock label = label_of(stock);
  for (const Page& page : labels) {
    const double wide = page.width / mm;
    const double high = page.height / mm;
    if (std::abs(wide - label.width_mm) <= same_size_mm &&
        std::abs(high - label.height_mm) <= same_size_mm) {
      continue;
    }
    refuse(problems,
           fmt::format("a label of {} x {} mm does not belong on {}, whose labels are {} x {} mm",
                       fixed(wide, 1), fixed(high, 1), stock.name, shortest(label.width_mm),
                       shortest(label.height_mm)),
           "lay it out on that size");
    return;
  }
}

/// How far an item's ink is from the nearest of the page's edges, in millimetres; below 0: past it.
double distance_to_edge(const Item& item, const Page& page, const FontSet& fonts) {
  const Bounds ink = bounds_of(item, fonts);
  return std::min({ink.left, ink.top, page.width - ink.right, page.height - ink.bottom}) / mm;
}

std::string words_of(const Item& item) {
  if (const auto* const run = std::get_if<TextRun>(&item)) return "\"" + run->text + "\"";
  return "a line or a figure";
}

/// The item nearest to the page's edge, if it is nearer than allowed.
const Item* too_near(const Page& page, double least_mm, const FontSet& fonts) {
  const Item* worst = nullptr;
  double nearest = least_mm - rounding_mm;
  for (const Item& item : page.items) {
    const double distance = distance_to_edge(item, page, fonts);
    if (distance >= nearest) continue;
    nearest = distance;
    worst = &item;
  }
  return worst;
}

void check_edges(std::span<const Page> labels, const Stock& stock, const FontSet& fonts,
                 Problems& problems) {
  if (stock.keep_out_mm == 0) return;
  for (const Page& page : labels) {
    const Item* const item = too_near(page, stock.keep_out_mm, fonts);
    if (item == nullptr) continue;
    refuse(problems,
           fmt::format("{} of {} is {} mm from the edge, and {} keeps {} mm free", words_of(*item),
                       page.sheet, fixed(distance_to_edge(*item, page, fonts), 2), stock.name,
                       shortest(stock.keep_out_mm)),
           margin_help + ", or take a label that is printed past its edge");
    return;
  }
}

void check_bleed(const Stock& stock, double bleed_mm, Problems& problems) {
  if (bleed_mm == 0 || !stock.grid) return;
  const LabelGrid& grid = *stock.grid;
  double room = std::min(grid.left_mm, grid.top_mm);
  if (grid.columns > 1) room = std::min(room, (grid.pitch_x_mm - grid.label_width_mm) / 2);
  if (grid.rows > 1) room = std::min(room, (grid.pitch_y_mm - grid.label_height_mm) / 2);
  if (bleed_mm <= room + rounding_mm) return;
  refuse(problems,
         fmt::format("a bleed of {} mm would reach the next label: around each label of {} there "
                     "are {} mm",
                     shortest(bleed_mm), stock.name, fixed(std::max(room, 0.0), 2)),
         "print without bleed, or on single labels");
}

void check_crop_marks(const Stock& stock, const Imposition& imposition, Problems& problems) {
  if (imposition.crop_marks == CropMarks::none || !stock.grid) return;
  const double needed = margin_around(imposition);
  const double room = std::min(stock.grid->left_mm, stock.grid->top_mm);
  if (room >= needed) return;
  refuse(problems,
         fmt::format("crop marks need {} mm beside the labels, and {} has {} mm", shortest(needed),
                     stock.name, shortest(room)),
         "print without crop marks: cut along the labels' edges");
}

}  // namespace

void require_possible(std::span<const Page> labels, const Stock& stock,
                      const Imposition& imposition, const FontSet& fonts) {
  Problems problems;
  check_position(stock, imposition.first, problems);
  check_correction(imposition.correction, problems);
  check_sizes(labels, stock, problems);
  if (imposition.bleed_mm == 0) check_edges(labels, stock, fonts, problems);
  check_bleed(stock, imposition.bleed_mm, problems);
  check_crop_marks(stock, imposition, problems);
  problems.throw_if_any();
}

void require_on_paper(std::span<const Page> pages, const Imposition& imposition,
                      const FontSet& fonts) {
  Problems problems;
  for (const Page& page : pages) {
    const Item* const item = too_near(page, 0, fonts);
    if (item == nullptr) continue;
    const bool is_moved = imposition.correction != PrinterCorrection{};
    refuse(problems,
           fmt::format("{} of {} would be printed {} mm past the paper's edge", words_of(*item),
                       page.sheet, fixed(-distance_to_edge(*item, page, fonts), 2)),
           is_moved ? "the printer's correction moves it there: let the printer be aligned"
                    : margin_help);
    break;
  }
  problems.throw_if_any();
}

}  // namespace tub::layout
