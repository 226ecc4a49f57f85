// A page drawn in pixels, before it is written as a picture.
#pragma once

#include <cstdint>
#include <vector>

#include "export/cairo_page.h"
#include "layout/pages/page.h"

namespace tub::exporting {

/// Rows of pixels from the top, each 0xRRGGBB.
struct Pixels {
  int width = 0;
  int height = 0;
  std::vector<std::uint32_t> colours;

  const std::uint32_t* row(int y) const {
    return colours.data() + static_cast<std::size_t>(y) * static_cast<std::size_t>(width);
  }
};

/// The page on white paper.
///
/// dots_per_inch: above 0
/// Throws: Error (the command line's fault) if a side has over 32,767 pixels, (the machine's) if
///         Cairo cannot draw it
Pixels draw_pixels(const Page& page, const FontSet& fonts, double dots_per_inch, Raster raster);

}  // namespace tub::exporting
