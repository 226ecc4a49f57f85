// Puts finished labels on sheets of labels, and makes the page that a sheet is lined up with.
#pragma once

#include <span>
#include <string>
#include <vector>

#include "layout/labels/stock.h"
#include "layout/pages/page.h"
#include "layout/type/font.h"

namespace tub::layout {

/// Where a printer puts a page that should be in place, as its alignment page shows it.
struct PrinterCorrection {
  double right_mm = 0;  ///< by how much too far right; negative: too far left
  double down_mm = 0;   ///< by how much too far down
  double width = 1;     ///< how wide 1 mm of the page is printed
  double height = 1;

  friend bool operator==(const PrinterCorrection&, const PrinterCorrection&) = default;
};

/// Whether lines beside a label's corners say where it is to be cut.
enum class CropMarks { none, corners };

struct Imposition {
  int first = 1;  ///< the position that the first label takes: row by row from the upper left
  PrinterCorrection correction{};
  double bleed_mm = 0;  ///< how far past a label's edge is printed what reaches the edge
  CropMarks crop_marks = CropMarks::none;
};

/// The labels on as few sheets as hold them, from the first position on; later sheets are filled
/// from their first. On a stock that is no sheet of labels, the same pages, moved by the
/// correction; with bleed or crop marks each is a larger page that says where it is trimmed.
///
/// Labels keep their true size: the correction moves them, and its width and height move each by
/// its distance from the sheet's upper left corner.
/// labels: pages of the size of `label_of(stock)`
/// Throws: Error if the first position is not on the sheet, a correction is above 5 mm or 2 %, a
///         label is not of the stock's size, something would be printed on what the stock keeps
///         free or past the paper, or bleed or crop marks find no room
std::vector<Page> impose(std::span<const Page> labels, const Stock& stock,
                         const Imposition& imposition, const FontSet& fonts);

/// The words on an alignment page, which are a language's.
struct AlignmentWords {
  std::string title;  ///< "Alignment page: a4_2x4_99x68"
  std::string note;   ///< "Print at 100 %, hold it behind a sheet …"
};

/// Numbers of the marks that an alignment page's note speaks of, as its rulers have them.
struct AlignmentMarks {
  int place = 0;  ///< whose distance from the paper's edge shows the shift
  int from = 0;   ///< the two whose distance shows the scale; equal: the stock is too small for it
  int to = 0;
};

AlignmentMarks alignment_marks(const Stock& stock);

/// A page with the outline of every label, its position's number, and rulers in millimetres along
/// both axes that count from the paper's upper left corner. The rulers stand inside the paper's
/// edges, where every printer prints.
///
/// Throws: Error if the words find no room on the stock
Page alignment_page(const Stock& stock, const AlignmentWords& words, const FontSet& fonts);

/// The page moved as the printer needs it.
Page corrected(Page page, const PrinterCorrection& correction);

}  // namespace tub::layout
