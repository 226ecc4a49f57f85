// Names of label sheets: paper, columns, rows and the label's size: "a4_2x4_99x68".
#pragma once

#include <string_view>

namespace tub {

/// True for a name of that form, whether such a sheet is on sale or not.
bool is_grid_name(std::string_view name);

}  // namespace tub
