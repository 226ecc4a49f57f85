// Pictures of pages: size, resolution, where ink lies, and that repeats are the same bytes.
#include <catch2/catch.hpp>
#include <cstdint>
#include <cstdio>

#include "base/error.h"
#include "base/text.h"
#include "export/bitmap.h"
#include "export/pixels.h"
#include "export/png.h"
#include "export/svg.h"
#include "export_test.h"

namespace tub::exporting {
namespace {

std::uint32_t big_endian(const std::string& bytes, std::size_t at) {
  std::uint32_t value = 0;
  for (std::size_t i = at; i < at + 4; ++i)
    value = value << 8 | static_cast<std::uint8_t>(bytes.at(i));
  return value;
}

/// Offset of a chunk's content in a PNG file. Source: PNG specification (W3C 2003), 5.3
std::size_t chunk(const std::string& png, const std::string& type) {
  std::size_t at = 8;
  while (png.substr(at + 4, 4) != type) at += big_endian(png, at) + 12;
  return at + 8;
}

Page blank_page(double width, double height) {
  Page page;
  page.width = width;
  page.height = height;
  page.elements = {Element::of(Role::section, -1)};
  return page;
}

/// How far the columns with ink reach, in pixels.
std::pair<int, int> inked_columns(const Pixels& pixels) {
  int first = pixels.width;
  int last = -1;
  for (int y = 0; y < pixels.height; ++y)
    for (int x = 0; x < pixels.width; ++x)
      if (pixels.row(y)[x] != 0xFFFFFF && pixels.row(y)[x] != 0xFFFFFFFF) {
        first = std::min(first, x);
        last = std::max(last, x);
      }
  return {first, last};
}

/// A row of a raw PBM, a dot a character. Source: the PBM format's description
std::string middle_row(const std::string& pbm) {
  std::size_t width = 0;
  std::size_t height = 0;
  REQUIRE(std::sscanf(pbm.c_str(), "P4\n%zu %zu\n", &width, &height) == 2);
  const std::size_t bytes_a_row = (width + 7) / 8;
  REQUIRE(pbm.size() > bytes_a_row * height);
  const std::size_t start = pbm.size() - bytes_a_row * (height - height / 2);
  std::string row;
  for (std::size_t x = 0; x < width; ++x)
    row += (static_cast<unsigned char>(pbm[start + x / 8]) >> (7 - x % 8) & 1) != 0 ? '#' : '.';
  return row;
}

TEST_CASE("a PNG has the page's size at its resolution, and states it in dots a metre") {
  const std::string png = to_png(sample_page(), test_fonts(), 110);
  CHECK(png.substr(0, 8) == "\x89PNG\r\n\x1A\n");
  CHECK(big_endian(png, chunk(png, "IHDR")) == 909);       // 595.2756 / 72 * 110
  CHECK(big_endian(png, chunk(png, "IHDR") + 4) == 1286);  // 841.8898 / 72 * 110
  CHECK(big_endian(png, chunk(png, "pHYs")) == 4331);      // 110 / 0.0254
  CHECK(png.at(chunk(png, "pHYs") + 8) == 1);              // the unit is the metre
}

TEST_CASE("pictures of one page are the same to the byte") {
  const Page page = sample_page();
  const auto is_repeatable = [](const auto& picture) { return picture() == picture(); };
  CHECK(is_repeatable([&] { return to_svg(page, test_fonts()); }));
  CHECK(is_repeatable([&] { return to_png(page, test_fonts(), 110); }));
  CHECK(is_repeatable([&] { return to_bitmap(page, test_fonts(), 203, BitmapFormat::png); }));
}

TEST_CASE("glyphs lie where layout placed them, not on the nearest whole pixel") {
  // The stem of "l" moved by a quarter of a pixel darkens one side and lightens the other.
  const auto shades = [](double shift) {
    Page page = blank_page(20, 20);
    page.items = {TextRun{Face::regular, 12, {5 + shift, 15}, 3, "l", {}, artifact}};
    return draw_pixels(page, test_fonts(), 72, Raster::smooth).colours;
  };
  CHECK(shades(0) != shades(0.25));
  CHECK(shades(0.25) != shades(0.5));
}

TEST_CASE("a text's ink ends within half a point of where its advances say") {
  Page page = blank_page(400, 20);
  const std::string text = "HHHHHHHHHHHHHHHHHHHHHHHHHHHHHHHH";
  const double width = text_width(test_fonts().regular, text, 10);
  page.items = {TextRun{Face::regular, 10, {10, 15}, width, text, {}, artifact}};
  const auto [first, last] = inked_columns(draw_pixels(page, test_fonts(), 720, Raster::smooth));
  // Side bearings of H: 98 of 1000 units to either side. Source: Noto Sans, hmtx and glyf.
  CHECK(first / 10.0 == Approx(10 + 0.98).margin(0.11));
  CHECK((last + 1) / 10.0 == Approx(10 + width - 0.98).margin(0.11));
}

TEST_CASE("a bitmap's upright lines are equally wide wherever they fall between dots") {
  Page page = blank_page(100, 20);
  for (int i = 0; i < 20; ++i)
    page.items.emplace_back(Rule{{3 + i * 4.63, 0}, {3 + i * 4.63, 20}, 0.7087, {}, artifact});
  const std::string pbm = to_bitmap(page, test_fonts(), 203, BitmapFormat::pbm);
  const std::string head = "P4\n282 56\n";
  REQUIRE(pbm.substr(0, head.size()) == head);
  REQUIRE(pbm.size() == head.size() + 36 * 56);
  const std::string row = middle_row(pbm);
  std::size_t lines = 0;
  for (std::size_t at = row.find('#'); at != std::string::npos; at = row.find('#', at)) {
    const std::size_t end = row.find('.', at);
    CHECK(end - at == 2);  // 0.25 mm is 2 dots at 203 to the inch
    at = end;
    ++lines;
  }
  CHECK(lines == 20);
}

TEST_CASE("a bitmap's squares of a grid are equally many whole dots wide") {
  Page page = blank_page(100, 10);
  const double pitch = 1.4173;  // half a millimetre: 3.996 dots at 203 to the inch
  const Grid grid{{3.3, 0}, pitch};
  for (int i = 0; i < 40; i += 2) {
    const double x = grid.corner.x + i * pitch;
    page.items.emplace_back(Path{.segments = {MoveTo{{x, 0}}, LineTo{{x + pitch, 0}},
                                              LineTo{{x + pitch, 8}}, LineTo{{x, 8}}, ClosePath{}},
                                 .fill = Colour{},
                                 .stroke = {},
                                 .grid = grid});
  }
  const std::string row = middle_row(to_bitmap(page, test_fonts(), 203, BitmapFormat::pbm));
  std::string wanted;
  for (int i = 0; i < 20; ++i) wanted += "####....";
  CHECK(row.substr(row.find('#'), wanted.size()) == wanted);
}

TEST_CASE("the band prints white and damson black where there is one ink") {
  const auto dot = [](Colour colour) {
    Page page = blank_page(8, 8);
    page.items = {Box{{0, 0}, 8, 8, colour, {}, artifact}};
    return to_bitmap(page, test_fonts(), 72, BitmapFormat::pbm).back();
  };
  CHECK(dot({212, 212, 212}) == '\x00');
  CHECK(dot({99, 56, 110}) == '\xFF');
  CHECK(dot({128, 128, 128}) == '\x00');
  CHECK(dot({127, 127, 127}) == '\xFF');
}

TEST_CASE("an SVG has the page's size in points, and every text where layout placed it") {
  const Page page = sample_page();
  const std::string svg = to_svg(page, test_fonts());
  for (const Item& item : page.items)
    if (const auto* run = std::get_if<TextRun>(&item))
      CHECK_THAT(svg, Catch::Contains("x=\"" + shortest(run->origin.x) + "\" y=\"" +
                                      shortest(run->origin.y) + "\""));
  CHECK(svg.find("viewBox=\"0 0 595.2756 841.8898\"") != std::string::npos);
}

TEST_CASE("a character that layout should have refused is named, and nothing is drawn") {
  Page page = blank_page(20, 20);
  page.items = {TextRun{Face::regular, 12, {5, 15}, 3, "tub \u6D74", {}, artifact}};
  CHECK_THROWS_WITH(to_png(page, test_fonts(), 72),
                    Catch::Contains("U+6D74, which NotoSans-Regular.ttf lacks"));
  CHECK_THROWS_WITH(to_svg(page, test_fonts()), Catch::Contains("\"tub \u6D74\""));
}

TEST_CASE("a picture too large for Cairo is an error that names the page") {
  CHECK_THROWS_WITH(to_png(sample_page(), test_fonts(), 5000),
                    Catch::Contains("page 1 of startup_card would be 41339 x 58465 pixels"));
}

}  // namespace
}  // namespace tub::exporting
