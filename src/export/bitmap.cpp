// A finished page in black and white dots, for label printers.
#include "export/bitmap.h"

#include <fmt/format.h>

#include <algorithm>

#include "export/pixels.h"
#include "export/png_writer.h"

namespace tub::exporting {
namespace {

/// Luma of a colour, 0 to 255. Source: ITU-R BT.601 weights, in thousandths.
constexpr std::uint32_t grey(std::uint32_t colour) {
  return ((colour >> 16 & 0xFF) * 299 + (colour >> 8 & 0xFF) * 587 + (colour & 0xFF) * 114) / 1000;
}

constexpr std::uint32_t threshold = 128;

constexpr std::uint32_t white = 0xFFFFFF;

/// Eight dots or fewer as a byte, the highest bit first; a bit is set where the dot is white.
char byte_of(const std::uint32_t* colours, int count) {
  std::uint32_t bits = 0;
  for (int i = 0; i < count; ++i)
    if (grey(colours[i]) >= threshold) bits |= 0x80U >> i;
  return static_cast<char>(bits);
}

bool are_white(const std::uint32_t* colours, int count) {
  std::uint32_t all = white;
  for (int i = 0; i < count; ++i) all &= colours[i];
  return all == white;
}

/// Rows of whole bytes. Most of a page is white, which is seen eight dots at a time.
std::string white_bits(const Pixels& pixels) {
  constexpr int dots_a_byte = 8;
  const auto bytes_a_row = (static_cast<std::size_t>(pixels.width) + 7) / 8;
  std::string rows;
  rows.reserve(bytes_a_row * static_cast<std::size_t>(pixels.height));
  for (int y = 0; y < pixels.height; ++y) {
    const std::uint32_t* const row = pixels.row(y);
    for (int x = 0; x < pixels.width; x += dots_a_byte) {
      const int count = std::min(dots_a_byte, pixels.width - x);
      const bool is_blank = count == dots_a_byte && are_white(row + x, dots_a_byte);
      rows += is_blank ? '\xFF' : byte_of(row + x, count);
    }
  }
  return rows;
}

/// A raw PBM: its set bits are black, the bits that fill a row's last byte are zero.
std::string pbm(const Pixels& pixels, std::string rows) {
  const auto bytes_a_row = (static_cast<std::size_t>(pixels.width) + 7) / 8;
  const int unused = static_cast<int>(bytes_a_row * 8) - pixels.width;
  for (std::size_t i = 0; i < rows.size(); ++i) {
    const bool is_last = i % bytes_a_row == bytes_a_row - 1;
    rows[i] = static_cast<char>(~rows[i] & (is_last ? 0xFF << unused : 0xFF));
  }
  return fmt::format("P4\n{} {}\n", pixels.width, pixels.height) + rows;
}

}  // namespace

std::string to_bitmap(const Page& page, const FontSet& fonts, double dots_per_inch,
                      BitmapFormat format) {
  const Pixels pixels = draw_pixels(page, fonts, dots_per_inch, Raster::dots);
  std::string rows = white_bits(pixels);
  if (format == BitmapFormat::pbm) return pbm(pixels, std::move(rows));
  return write_png({.width = pixels.width,
                    .height = pixels.height,
                    .shades = PngShades::black_white,
                    .dots_per_inch = dots_per_inch},
                   [&](int y, unsigned char* samples) {
                     const std::size_t size = (static_cast<std::size_t>(pixels.width) + 7) / 8;
                     rows.copy(reinterpret_cast<char*>(samples), size,
                               static_cast<std::size_t>(y) * size);
                   });
}

}  // namespace tub::exporting
