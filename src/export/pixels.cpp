// A page drawn in pixels by Cairo's image backend.
#include "export/pixels.h"

#include <cairo.h>
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "base/error.h"
#include "export/cairo_handles.h"

namespace tub::exporting {
namespace {

int pixels_along(double points, double dots_per_inch) {
  return static_cast<int>(std::lround(points / 72 * dots_per_inch));
}

void require_drawable_size(const Page& page, const Pixels& pixels) {
  constexpr int longest_side = 32767;  // of Cairo's image surfaces
  if (std::max(pixels.width, pixels.height) <= longest_side) return;
  throw Error(Diagnostic{
      .message = fmt::format("page {} of {} would be {} x {} pixels; a side has at most {}",
                             page.number, page.sheet, pixels.width, pixels.height, longest_side),
      .where = {},
      .trace = {},
      .help = "choose fewer dots per inch",
      .fault = Fault::command_line});
}

}  // namespace

Pixels draw_pixels(const Page& page, const FontSet& fonts, double dots_per_inch, Raster raster) {
  Pixels pixels{
      pixels_along(page.width, dots_per_inch), pixels_along(page.height, dots_per_inch), {}};
  require_drawable_size(page, pixels);
  // CAIRO_FORMAT_RGB24 is a native-endian 32-bit word a pixel, so its rows need no padding.
  pixels.colours.assign(
      static_cast<std::size_t>(pixels.width) * static_cast<std::size_t>(pixels.height), 0xFFFFFF);
  const Surface surface(cairo_image_surface_create_for_data(
      reinterpret_cast<unsigned char*>(pixels.colours.data()), CAIRO_FORMAT_RGB24, pixels.width,
      pixels.height, pixels.width * 4));
  require_success(cairo_surface_status(surface.get()), page);
  const Context context(cairo_create(surface.get()));
  cairo_scale(context.get(), dots_per_inch / 72, dots_per_inch / 72);
  draw_page(context.get(), page, fonts, raster);
  cairo_surface_flush(surface.get());
  return pixels;
}

}  // namespace tub::exporting
