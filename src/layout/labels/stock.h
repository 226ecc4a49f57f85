// Sizes of paper and labels, read from the table of stocks.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/modules.h"

namespace tub::layout {

/// Labels of one size in columns and rows on a sheet.
struct LabelGrid {
  int columns = 1;
  int rows = 1;
  double label_width_mm = 0;
  double label_height_mm = 0;
  double left_mm = 0;  ///< from the sheet's edge to the first label
  double top_mm = 0;
  double pitch_x_mm = 0;  ///< from a label's edge to the same edge of the next
  double pitch_y_mm = 0;
  double corner_radius_mm = 0;  ///< 0: square, or not known

  int labels() const { return columns * rows; }
};

/// A square set at a point that a label carries in red before anything is printed on it.
struct PreprintedFrame {
  double x_mm = 0;  ///< of its middle, from the label's upper left corner
  double y_mm = 0;
  double side_mm = 0;  ///< of the square itself
};

/// What a stock given by its size alone keeps free: from memory, the cut of a label on a roll
/// wanders by up to a millimetre.
inline constexpr double usual_keep_out_mm = 1;

/// One sheet of paper, one label on a roll, or a sheet of labels.
struct Stock {
  std::string name;  ///< "a4", "a4_2x4_99x68"
  double width_mm = 0;
  double height_mm = 0;
  std::optional<LabelGrid> grid = std::nullopt;
  double keep_out_mm = 0;  ///< at each edge of the paper or label, where nothing may be printed
  double bleed_mm = 0;     ///< how far past its edge is printed what reaches the edge
  std::vector<PreprintedFrame> frames{};  ///< for devices of one ink
};

/// What a document is laid out on: the label of a sheet of labels, else the stock itself.
Stock label_of(const Stock& stock);

/// All stocks of `templates/stocks.json`, in its order.
///
/// file:   for messages
/// Throws: Error with everything that is wrong in the text
std::vector<Stock> read_stocks(std::string_view json, const std::string& file);

}  // namespace tub::layout
