// Rows of samples as a PNG file, by libpng.
#pragma once

#include <string>
#include <string_view>

namespace tub {

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

/// The rows as a PNG file, deflated at level 1 (a page of text gains little from more).
///
/// Throws: Error (the machine's fault) with libpng's message
std::string write_png(const PngLayout& layout, std::string_view rows);

}  // namespace tub
