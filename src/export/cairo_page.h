// Draws a finished page on a Cairo context; the SVG, PNG and bitmap exporters share it.
#pragma once

#include "layout/pages/page.h"

// NOLINTNEXTLINE(bugprone-reserved-identifier): as <cairo.h> declares it
typedef struct _cairo cairo_t;

namespace tub::exporting {

/// How outlines and lines meet the surface's grid.
enum class Raster {
  none,    ///< a vector surface: glyphs are kept as glyphs
  smooth,  ///< pixels of many shades: glyphs are filled as outlines, which Cairo, other than
           ///< glyphs, does not move to whole pixels
  dots,    ///< black or white dots: as smooth, but upright lines and boxes lie on whole dots
};

/// Draws every item of the page in its order. User space must be points, y downwards, with the
/// page's upper left corner at the origin.
///
/// Throws: Error (the machine's fault) if FreeType cannot read a face or Cairo reports an error
void draw_page(cairo_t* context, const Page& page, const FontSet& fonts, Raster raster);

/// Throws: Error (the machine's fault) naming the page, unless the status is Cairo's success
void require_success(int cairo_status, const Page& page);

}  // namespace tub::exporting
