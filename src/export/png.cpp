// A finished page as a PNG picture.
#include "export/png.h"

#include "export/pixels.h"
#include "export/png_writer.h"

namespace tub {

std::string to_png(const Page& page, const FontSet& fonts, double dots_per_inch) {
  const Pixels pixels = draw_pixels(page, fonts, dots_per_inch, Raster::smooth);
  const auto bytes_a_row = static_cast<std::size_t>(pixels.width) * 3;
  std::string rows;
  rows.reserve(bytes_a_row * static_cast<std::size_t>(pixels.height));
  for (const std::uint32_t colour : pixels.colours)
    for (const int shift : {16, 8, 0}) rows.push_back(static_cast<char>(colour >> shift & 0xFF));
  return write_png({.width = pixels.width,
                    .height = pixels.height,
                    .shades = PngShades::colour,
                    .dots_per_inch = dots_per_inch},
                   rows);
}

}  // namespace tub
