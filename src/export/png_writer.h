// Rows of samples as a PNG file, by libpng.
#pragma once

#include <functional>
#include <string>

#include "base/modules.h"

namespace tub::exporting {

enum class PngShades {
  colour,       ///< three bytes a pixel: red, green, blue
  black_white,  ///< one bit a pixel, the highest first, 1 is white; a row fills whole bytes
};

struct PngLayout {
  int width = 0;
  int height = 0;
  PngShades shades = PngShades::colour;
  double dots_per_inch = 0;  ///< told in the file's pHYs chunk, in whole dots a metre
};

/// Fills one row of samples, counted from the top.
using PngRow = std::function<void(int y, unsigned char* samples)>;

/// The rows as a PNG file, deflated at level 1 (a page of text gains little from more). They are
/// asked for one at a time, so that a large picture is not held twice.
///
/// Throws: Error (the machine's fault) with libpng's message
std::string write_png(const PngLayout& layout, const PngRow& fill_row);

}  // namespace tub::exporting
