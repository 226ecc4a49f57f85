// Labels copied to their places on sheets.
#include "layout/labels/impose.h"

#include <algorithm>
#include <cmath>

#include "layout/labels/crop_marks.h"
#include "layout/labels/imposition_checks.h"
#include "layout/pages/fragment.h"
#include "layout/type/style.h"

namespace tub::layout {
namespace {

Point shift_of(Point at, const PrinterCorrection& correction) {
  return {at.x / correction.width - correction.right_mm * mm,
          at.y / correction.height - correction.down_mm * mm};
}

/// An empty sheet with the properties of its first label.
Page sheet_for(const Page& label, double width, double height) {
  Page sheet = label;
  sheet.width = width;
  sheet.height = height;
  sheet.items.clear();
  sheet.elements = {Element::of(Role::section)};
  return sheet;
}

bool is_same(double one, double other) {
  constexpr double tolerance = 0.02;
  return std::abs(one - other) <= tolerance;
}

/// A filled box that reaches the label's edge, made to reach past it.
void extend(Item& item, const Page& label, double bleed) {
  Box* const box = std::get_if<Box>(&item);
  if (box == nullptr || !box->fill || box->stroke) return;
  const bool left = is_same(box->corner.x, 0);
  const bool top = is_same(box->corner.y, 0);
  const bool right = is_same(box->corner.x + box->width, label.width);
  const bool foot = is_same(box->corner.y + box->height, label.height);
  if (left) box->corner.x -= bleed;
  if (top) box->corner.y -= bleed;
  box->width += (left ? bleed : 0) + (right ? bleed : 0);
  box->height += (top ? bleed : 0) + (foot ? bleed : 0);
}

/// Copies a label onto a sheet, as a section of its own.
void place(const Page& label, Point at, double bleed, Page& sheet) {
  const auto offset = static_cast<int>(sheet.elements.size());
  for (Element element : label.elements) {
    element.parent = element.parent < 0 ? 0 : element.parent + offset;
    if (element.parent == 0 && element.language.empty() && label.language != sheet.language) {
      element.language = label.language;
    }
    sheet.elements.push_back(std::move(element));
  }
  for (const Item& item : label.items) {
    Item copy = item;
    if (bleed > 0) extend(copy, label, bleed);
    copy = moved(std::move(copy), at);
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

/// The label in the middle of a page with room for its bleed and crop marks around it.
Page with_margin(const Page& label, const Imposition& imposition) {
  const double bleed = imposition.bleed_mm * mm;
  const double margin = margin_around(imposition) * mm;
  Page page = sheet_for(label, label.width + 2 * margin, label.height + 2 * margin);
  page.elements = label.elements;
  for (Item item : label.items) {
    if (bleed > 0) extend(item, label, bleed);
    page.items.push_back(moved(std::move(item), {margin, margin}));
  }
  page.trim = Area{{margin, margin}, label.width, label.height};
  page.bleed =
      Area{{margin - bleed, margin - bleed}, label.width + 2 * bleed, label.height + 2 * bleed};
  if (imposition.crop_marks == CropMarks::corners) add_crop_marks(page, bleed);
  return page;
}

std::vector<Page> single_labels(std::span<const Page> labels, const Imposition& imposition) {
  std::vector<Page> pages;
  for (const Page& label : labels) {
    const bool is_plain = margin_around(imposition) == 0;
    pages.push_back(
        corrected(is_plain ? label : with_margin(label, imposition), imposition.correction));
  }
  return pages;
}

std::vector<Page> sheets_of(std::span<const Page> labels, const Stock& stock,
                            const Imposition& imposition) {
  std::vector<Page> sheets;
  int position = imposition.first - 1;
  for (const Page& label : labels) {
    if (sheets.empty() || position == stock.grid->labels()) {
      if (!sheets.empty()) position = 0;
      sheets.push_back(sheet_for(label, stock.width_mm * mm, stock.height_mm * mm));
      sheets.back().is_one_sided = true;
      if (imposition.crop_marks == CropMarks::corners) {
        add_crop_marks(sheets.back(), stock, imposition);
      }
    }
    place(label, shift_of(corner_of(*stock.grid, position), imposition.correction),
          imposition.bleed_mm * mm, sheets.back());
    ++position;
  }
  number_pages(sheets);
  return sheets;
}

}  // namespace

Page corrected(Page page, const PrinterCorrection& correction) {
  const Point shift = shift_of({0, 0}, correction);
  if (shift == Point{0, 0}) return page;
  for (Item& item : page.items) item = moved(std::move(item), shift);
  return page;
}

std::vector<Page> impose(std::span<const Page> labels, const Stock& stock,
                         const Imposition& imposition, const FontSet& fonts) {
  require_possible(labels, stock, imposition, fonts);
  std::vector<Page> pages =
      stock.grid ? sheets_of(labels, stock, imposition) : single_labels(labels, imposition);
  require_on_paper(pages, imposition, fonts);
  return pages;
}

}  // namespace tub::layout
