// What the layout tests share: the prepared faces, styles and stocks, and files of the project.
#pragma once

#include <string>

#include "layout/labels/stock.h"
#include "layout/type/font.h"
#include "layout/type/style.h"

namespace tub::layout {

/// A file's bytes; fails the test run if it cannot be read.
std::string read_file(const std::string& path);

/// The faces as the build prepared them.
const FontSet& test_fonts();

/// The style of cards.
const Style& test_style();

/// A stock of the project's table; fails the test run if there is none.
const Stock& test_stock(const std::string& name);

}  // namespace tub::layout
