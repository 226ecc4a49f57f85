#include "layout/impose.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "base/error.h"
#include "base/text.h"
#include "layout/fragment.h"
#include "layout/style.h"

namespace tub {
namespace {

constexpr double most_shift_mm = 5;
constexpr double most_stretch = 0.02;
constexpr double same_size_mm = 0.01;

void refuse(Problems& problems, std::string message, std::string help) {
  problems.add({.message = std::move(message),
                .where = {},
                .trace = {"putting labels on a sheet"},
                .help = std::move(help)});
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

void check_labels(std::span<const Page> labels, const Stock& stock, Problems& problems) {
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

void check(std::span<const Page> labels, const Stock& stock, const Imposition& imposition) {
  Problems problems;
  const int positions = stock.grid ? stock.grid->labels() : 1;
  if (imposition.first < 1 || imposition.first > positions) {
    refuse(problems,
           fmt::format("position {} is not on the sheet: {} has positions 1 to {}",
                       imposition.first, stock.name, positions),
           "name the first free position, counted row by row from the upper left");
  }
  check_correction(imposition.correction, problems);
  check_labels(labels, stock, problems);
  problems.throw_if_any();
}

/// A position's upper left corner on the sheet, in points, from 0.
Point corner_of(const LabelGrid& grid, int position) {
  return {(grid.left_mm + position % grid.columns * grid.pitch_x_mm) * mm,
          (grid.top_mm + position / grid.columns * grid.pitch_y_mm) * mm};
}

Point corrected(Point at, const PrinterCorrection& correction) {
  return {at.x / correction.width - correction.right_mm * mm,
          at.y / correction.height - correction.down_mm * mm};
}

/// An empty sheet with the properties of its first label.
Page sheet_for(const Page& label, const Stock& stock) {
  Page sheet = label;
  sheet.width = stock.width_mm * mm;
  sheet.height = stock.height_mm * mm;
  sheet.items.clear();
  sheet.elements = {Element::of(Role::section)};
  return sheet;
}

/// Copies a label onto a sheet, as a section of its own.
void place(const Page& label, Point at, Page& sheet) {
  const auto offset = static_cast<int>(sheet.elements.size());
  for (Element element : label.elements) {
    element.parent = element.parent < 0 ? 0 : element.parent + offset;
    if (element.parent == 0 && element.language.empty() && label.language != sheet.language) {
      element.language = label.language;
    }
    sheet.elements.push_back(std::move(element));
  }
  for (const Item& item : label.items) {
    Item copy = moved(item, at);
    if (const int element = element_of(copy); element != artifact) {
      std::visit([&](auto& kind) { kind.element = element + offset; }, copy);
    }
    sheet.items.push_back(std::move(copy));
  }
}

void number_pages(std::vector<Page>& pages) {
  for (std::size_t i = 0; i < pages.size(); ++i) {
    pages[i].number = static_cast<int>(i) + 1;
    pages[i].pages = static_cast<int>(pages.size());
  }
}

std::vector<Page> moved_pages(std::span<const Page> pages, const PrinterCorrection& correction) {
  std::vector<Page> result(pages.begin(), pages.end());
  const Point shift = corrected({0, 0}, correction);
  if (shift == Point{0, 0}) return result;
  for (Page& page : result) {
    for (Item& item : page.items) item = moved(std::move(item), shift);
  }
  return result;
}

}  // namespace

std::vector<Page> impose(std::span<const Page> labels, const Stock& stock,
                         const Imposition& imposition) {
  check(labels, stock, imposition);
  if (!stock.grid) return moved_pages(labels, imposition.correction);
  std::vector<Page> sheets;
  int position = imposition.first - 1;
  for (const Page& label : labels) {
    if (sheets.empty() || position == stock.grid->labels()) {
      if (!sheets.empty()) position = 0;
      sheets.push_back(sheet_for(label, stock));
    }
    place(label, corrected(corner_of(*stock.grid, position), imposition.correction), sheets.back());
    ++position;
  }
  number_pages(sheets);
  return sheets;
}

}  // namespace tub
