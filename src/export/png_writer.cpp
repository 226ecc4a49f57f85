// Rows of samples as a PNG file, by libpng.
#include "export/png_writer.h"

#include <png.h>

#include <cmath>
#include <csetjmp>
#include <new>
#include <vector>

#include "base/error.h"

namespace tub::exporting {
namespace {

constexpr double metres_an_inch = 0.0254;

/// False if there is no memory for it.
bool is_appended(std::string& out, png_bytep bytes, png_size_t count) {
  try {
    out.append(reinterpret_cast<const char*>(bytes), count);
    return true;
  } catch (const std::bad_alloc&) {
    return false;
  }
}

/// No exception may pass through libpng.
void append(png_structp png, png_bytep bytes, png_size_t count) {
  if (is_appended(*static_cast<std::string*>(png_get_io_ptr(png)), bytes, count)) return;
  png_error(png, "out of memory");
}

void flush(png_structp) {}

void keep_message(png_structp png, png_const_charp message) {
  *static_cast<std::string*>(png_get_error_ptr(png)) = message;
  png_longjmp(png, 1);
}

void ignore_warning(png_structp, png_const_charp) {}  // none concerns a file that is written whole

/// Tells libpng what comes. libpng leaves by longjmp on an error, so nothing here has a destructor.
void write_header(png_structp png, png_infop info, const PngLayout& layout) {
  const bool is_colour = layout.shades == PngShades::colour;
  const auto width = static_cast<png_uint_32>(layout.width);
  const auto dots_a_metre =
      static_cast<png_uint_32>(std::lround(layout.dots_per_inch / metres_an_inch));
  png_set_compression_level(png, 1);
  png_set_filter(png, PNG_FILTER_TYPE_BASE, is_colour ? PNG_FILTER_UP : PNG_FILTER_NONE);
  png_set_IHDR(png, info, width, static_cast<png_uint_32>(layout.height), is_colour ? 8 : 1,
               is_colour ? PNG_COLOR_TYPE_RGB : PNG_COLOR_TYPE_GRAY, PNG_INTERLACE_NONE,
               PNG_COMPRESSION_TYPE_DEFAULT, PNG_FILTER_TYPE_DEFAULT);
  png_set_pHYs(png, info, dots_a_metre, dots_a_metre, PNG_RESOLUTION_METER);
  png_write_info(png, info);
}

std::size_t bytes_a_row(const PngLayout& layout) {
  const auto width = static_cast<std::size_t>(layout.width);
  return layout.shades == PngShades::colour ? width * 3 : (width + 7) / 8;
}

/// Whether libpng wrote the file; its message is then in its error pointer.
bool write_file(png_structp png, png_infop info, const PngLayout& layout, const PngRow& fill_row,
                std::vector<png_byte>& row) {
  if (setjmp(png_jmpbuf(png)) != 0) return false;
  write_header(png, info, layout);
  for (int y = 0; y < layout.height; ++y) {
    fill_row(y, row.data());
    png_write_row(png, row.data());
  }
  png_write_end(png, info);
  return true;
}

}  // namespace

std::string write_png(const PngLayout& layout, const PngRow& fill_row) {
  std::string out;
  std::string message = "out of memory";
  png_structp png =
      png_create_write_struct(PNG_LIBPNG_VER_STRING, &message, keep_message, ignore_warning);
  png_infop info = png == nullptr ? nullptr : png_create_info_struct(png);
  bool is_written = false;
  if (info != nullptr) {
    png_set_write_fn(png, &out, append, flush);
    std::vector<png_byte> row(bytes_a_row(layout));
    is_written = write_file(png, info, layout, fill_row, row);
  }
  png_destroy_write_struct(&png, &info);
  // As libpng and zlib end their messages of it.
  if (!is_written && message.ends_with("memory")) throw std::bad_alloc();
  if (!is_written)
    throw Error(Diagnostic{.message = "a PNG picture cannot be written: " + message,
                           .where = {},
                           .trace = {"writing a picture with libpng"},
                           .help = {},
                           .fault = Fault::machine});
  return out;
}

}  // namespace tub::exporting
