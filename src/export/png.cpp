// A finished page as a PNG picture.
#include "export/png.h"

#include "export/pixels.h"
#include "export/png_writer.h"

namespace tub::exporting {

std::string to_png(const Page& page, const FontSet& fonts, double dots_per_inch) {
  const Pixels pixels = draw_pixels(page, fonts, dots_per_inch, Raster::smooth);
  const auto fill_row = [&](int y, unsigned char* sample) {
    for (const std::uint32_t* colour = pixels.row(y); colour != pixels.row(y + 1); ++colour) {
      *sample++ = static_cast<unsigned char>(*colour >> 16 & 0xFF);
      *sample++ = static_cast<unsigned char>(*colour >> 8 & 0xFF);
      *sample++ = static_cast<unsigned char>(*colour & 0xFF);
    }
  };
  return write_png({.width = pixels.width,
                    .height = pixels.height,
                    .shades = PngShades::colour,
                    .dots_per_inch = dots_per_inch},
                   fill_row);
}

}  // namespace tub::exporting
