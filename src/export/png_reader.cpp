// PNG files read by Cairo, so that every exporter shows the same picture.
#include "export/png_reader.h"

#include <cairo.h>
#include <fmt/format.h>

#include <algorithm>
#include <cstdint>
#include <cstring>
#include <new>

#include "base/error.h"

namespace tub::exporting {
namespace {

cairo_status_t next_bytes(void* left, unsigned char* out, unsigned int count) {
  auto& bytes = *static_cast<std::string_view*>(left);
  if (bytes.size() < count) return CAIRO_STATUS_READ_ERROR;
  std::memcpy(out, bytes.data(), count);
  bytes.remove_prefix(count);
  return CAIRO_STATUS_SUCCESS;
}

Surface decoded(std::string_view bytes) {
  return Surface(cairo_image_surface_create_from_png_stream(next_bytes, &bytes));
}

// One sample over white: Cairo's pixels hold colours already multiplied by how opaque they are.
char over_white(std::uint32_t pixel, unsigned shift, std::uint32_t opaque) {
  const std::uint32_t sample = (pixel >> shift & 0xFFU) + 0xFFU - opaque;
  return static_cast<char>(std::min<std::uint32_t>(sample, 0xFF));
}

void add_row(Picture24& picture, const unsigned char* row, bool has_alpha) {
  for (int x = 0; x < picture.width; ++x) {
    std::uint32_t pixel = 0;
    std::memcpy(&pixel, row + 4 * static_cast<std::ptrdiff_t>(x), sizeof pixel);
    const std::uint32_t opaque = has_alpha ? pixel >> 24U : 0xFFU;
    for (const unsigned shift : {16U, 8U, 0U}) {
      picture.rgb.push_back(over_white(pixel, shift, opaque));
    }
  }
}

}  // namespace

std::optional<Picture24> read_png(std::string_view bytes) {
  const Surface surface = decoded(bytes);
  const cairo_status_t read = cairo_surface_status(surface.get());
  if (read == CAIRO_STATUS_NO_MEMORY) throw std::bad_alloc();
  if (read != CAIRO_STATUS_SUCCESS) return std::nullopt;
  const cairo_format_t format = cairo_image_surface_get_format(surface.get());
  const bool has_alpha = format == CAIRO_FORMAT_ARGB32;
  if (!has_alpha && format != CAIRO_FORMAT_RGB24) return std::nullopt;
  Picture24 picture{cairo_image_surface_get_width(surface.get()),
                    cairo_image_surface_get_height(surface.get()),
                    {}};
  const unsigned char* const data = cairo_image_surface_get_data(surface.get());
  const std::ptrdiff_t stride = cairo_image_surface_get_stride(surface.get());
  for (int y = 0; y < picture.height; ++y) add_row(picture, data + y * stride, has_alpha);
  return picture;
}

Surface surface_of_png(std::string_view bytes) {
  Surface surface = decoded(bytes);
  const cairo_status_t status = cairo_surface_status(surface.get());
  if (status == CAIRO_STATUS_SUCCESS) return surface;
  if (status == CAIRO_STATUS_NO_MEMORY) throw std::bad_alloc();
  throw Error(Diagnostic{
      .message = fmt::format("a picture cannot be drawn: {}", cairo_status_to_string(status)),
      .where = {},
      .trace = {"drawing a page with Cairo"},
      .help = {},
      .fault = Fault::machine});
}

}  // namespace tub::exporting
