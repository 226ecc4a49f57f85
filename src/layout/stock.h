// Sizes of paper and labels, read from the table of stocks.
#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace tub {

/// One sheet of paper, or one label on a roll.
struct Stock {
  std::string name;  ///< "a4"
  double width_mm = 0;
  double height_mm = 0;
};

/// All stocks of `templates/stocks.json`, in its order.
///
/// file:   for messages
/// Throws: Error with everything that is wrong in the text
std::vector<Stock> read_stocks(std::string_view json, const std::string& file);

}  // namespace tub
