// A finished page as a PNG picture.
#include "export/png.h"

#include "export/pixels.h"
#include "export/png_writer.h"

namespace tub {

std::string to_png(const Page& page, const FontSet& fonts, double dots_per_inch) {
  const Pixels pixels = draw_pixels(page, fonts, dots_per_inch, Raster::smooth);
  std::string rows(pixels.colours.size() * 3, '\0');
  char* sample = rows.data();
  for (const std::uint32_t colour : pixels.colours) {
    *sample++ = static_cast<char>(colour >> 16 & 0xFF);
    *sample++ = static_cast<char>(colour >> 8 & 0xFF);
    *sample++ = static_cast<char>(colour & 0xFF);
  }
  return write_png({.width = pixels.width,
                    .height = pixels.height,
                    .shades = PngShades::colour,
                    .dots_per_inch = dots_per_inch},
                   rows);
}

}  // namespace tub
