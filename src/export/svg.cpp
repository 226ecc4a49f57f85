// A finished page as an SVG picture, drawn by Cairo.
#include "export/svg.h"

#include <cairo-svg.h>
#include <cairo.h>

#include <new>
#include <string_view>
#include <utility>

#include "export/cairo_handles.h"
#include "export/cairo_page.h"

namespace tub::exporting {
namespace {

cairo_status_t append(void* out, const unsigned char* bytes, unsigned int count) {
  try {
    static_cast<std::string*>(out)->append(reinterpret_cast<const char*>(bytes), count);
    return CAIRO_STATUS_SUCCESS;
  } catch (const std::bad_alloc&) {
    return CAIRO_STATUS_NO_MEMORY;
  }
}

/// Cairo numbers every surface that a process makes; the number would tell repeats apart.
std::string without_surface_numbers(std::string svg) {
  const std::string_view mark = " id=\"surface";
  for (std::size_t at = svg.find(mark); at != std::string::npos; at = svg.find(mark, at))
    svg.erase(at, svg.find('"', at + mark.size()) + 1 - at);
  return svg;
}

}  // namespace

std::string to_svg(const Page& page, const FontSet& fonts) {
  std::string out;
  const Surface surface(cairo_svg_surface_create_for_stream(append, &out, page.width, page.height));
  const Context context(cairo_create(surface.get()));
  draw_page(context.get(), page, fonts, Raster::none);
  cairo_surface_finish(surface.get());
  require_success(cairo_surface_status(surface.get()), page);
  return without_surface_numbers(std::move(out));
}

}  // namespace tub::exporting
