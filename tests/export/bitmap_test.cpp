// Bitmaps for label printers: whole dots for lines and codes, at every resolution that printers
// have.
#include "export/bitmap.h"

#include <catch2/catch.hpp>
#include <cmath>
#include <cstdio>
#include <random>

#include "export_test.h"
#include "layout/blocks/qr.h"
#include "layout/type/style.h"

namespace tub::exporting {
namespace {

constexpr double resolutions[] = {203, 300, 600};

/// The dots of a raw PBM. Source: the description of the format
struct Dots {
  std::size_t width = 0;
  std::size_t height = 0;
  std::string rows;

  bool is_black(std::size_t x, std::size_t y) const {
    const std::size_t bytes_a_row = (width + 7) / 8;
    return (static_cast<unsigned char>(rows.at(y * bytes_a_row + x / 8)) >> (7 - x % 8) & 1) != 0;
  }
};

Dots dots_of(const Page& page, double dots_per_inch) {
  const std::string pbm = to_bitmap(page, test_fonts(), dots_per_inch, BitmapFormat::pbm);
  Dots dots;
  REQUIRE(std::sscanf(pbm.c_str(), "P4\n%zu %zu\n", &dots.width, &dots.height) == 2);
  dots.rows = pbm.substr(pbm.size() - (dots.width + 7) / 8 * dots.height);
  return dots;
}

Page blank_label(double width_mm, double height_mm) {
  Page page;
  page.width = width_mm * mm;
  page.height = height_mm * mm;
  page.elements = {Element::of(Role::section, -1)};
  return page;
}

/// Lengths of the runs of black dots along a line of them.
template <class IsBlack>
std::vector<int> black_runs(std::size_t length, IsBlack is_black) {
  std::vector<int> runs;
  bool was_black = false;
  for (std::size_t i = 0; i < length; ++i) {
    const bool black = is_black(i);
    if (black && !was_black) runs.push_back(0);
    if (black) ++runs.back();
    was_black = black;
  }
  return runs;
}

TEST_CASE("equal rules are equally many whole dots wide, upright and level") {
  std::mt19937 random(7);
  std::uniform_real_distribution<double> part(0, 0.9);
  for (const double width_mm : {0.25, 0.35, 0.5, 0.7, 0.8}) {
    Page page = blank_label(100, 100);
    for (int i = 0; i < 20; ++i) {
      const double place = (3 + 4.5 * i + part(random)) * mm;
      page.items.emplace_back(Rule{{place, 0}, {place, 1 * mm}, width_mm * mm, Colour{}, artifact});
      page.items.emplace_back(
          Rule{{99 * mm, place}, {100 * mm, place}, width_mm * mm, Colour{}, artifact});
    }
    for (const double dpi : resolutions) {
      CAPTURE(width_mm, dpi);
      const Dots dots = dots_of(page, dpi);
      const int wanted = static_cast<int>(std::lround(width_mm / 25.4 * dpi));
      const std::size_t last = dots.width - 2;
      CHECK(black_runs(last - 20, [&](std::size_t x) { return dots.is_black(x, 1); }) ==
            std::vector<int>(20, wanted));
      CHECK(black_runs(dots.height, [&](std::size_t y) { return dots.is_black(last, y); }) ==
            std::vector<int>(20, wanted));
    }
  }
}

/// Whether the dots show the code with its corner on that dot, each module so many dots wide.
bool shows(const Dots& dots, const QrCode& code, std::size_t left, std::size_t top,
           std::size_t module) {
  const auto side = static_cast<std::size_t>(code.modules) * module;
  for (std::size_t y = 0; y < side; ++y) {
    for (std::size_t x = 0; x < side; ++x) {
      const bool is_dark = code.is_dark(static_cast<int>(x / module), static_cast<int>(y / module));
      if (dots.is_black(left + x, top + y) != is_dark) return false;
    }
  }
  return true;
}

TEST_CASE("the modules of a square code are squares of whole dots, wherever it stands") {
  const QrCode code = qr_code("01ABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789$%*+-./:");
  for (const double dpi : resolutions) {
    for (const Point corner : {Point{5.03, 4.21}, Point{7.77, 9.96}, Point{12.4, 3.4}}) {
      CAPTURE(dpi, corner.x);
      Page page = blank_label(50, 50);
      page.items.emplace_back(qr_path(code, corner, 0.5 * mm));
      const Dots dots = dots_of(page, dpi);
      // Half a millimetre: 4 dots at 203 to the inch, 6 at 300, 12 at 600.
      const auto module = static_cast<std::size_t>(std::lround(0.5 / 25.4 * dpi));
      CHECK(shows(dots, code, static_cast<std::size_t>(std::lround(corner.x / 72 * dpi)),
                  static_cast<std::size_t>(std::lround(corner.y / 72 * dpi)), module));
    }
  }
}

TEST_CASE("a frame's four sides are equally wide, and its corners closed") {
  Page page = blank_label(40, 40);
  page.items = {Box{{7.13, 9.41}, 55.5, 40.7, {}, Stroke{0.5 * mm, {}}, artifact}};
  for (const double dpi : resolutions) {
    CAPTURE(dpi);
    const Dots dots = dots_of(page, dpi);
    const int wanted = static_cast<int>(std::lround(0.5 / 25.4 * dpi));
    const auto middle_x = static_cast<std::size_t>((7.13 + 27) / 72 * dpi);
    const auto middle_y = static_cast<std::size_t>((9.41 + 20) / 72 * dpi);
    CHECK(black_runs(dots.width, [&](std::size_t x) { return dots.is_black(x, middle_y); }) ==
          std::vector<int>(2, wanted));
    CHECK(black_runs(dots.height, [&](std::size_t y) { return dots.is_black(middle_x, y); }) ==
          std::vector<int>(2, wanted));
  }
}

TEST_CASE("a bitmap's PNG has one bit a dot: black or white, nothing between") {
  for (const double dpi : resolutions) {
    const std::string png = to_bitmap(sample_page(), test_fonts(), dpi, BitmapFormat::png);
    // The header's ninth and tenth byte: bits a sample, and grey without colour.
    // Source: PNG specification (W3C 2003), 11.2.2
    const std::size_t header = png.find("IHDR") + 4;
    CHECK(png.at(header + 8) == 1);
    CHECK(png.at(header + 9) == 0);
  }
}

TEST_CASE("type of every ink that sheets use is printed black, its strokes unbroken") {
  // The stem of an l of 7 pt, 0.09 em, is at least one dot wide at 203 to the inch.
  for (const Colour ink : {Colour{0, 0, 0}, Colour{99, 56, 110}, Colour{0, 83, 135}}) {
    Page page = blank_label(20, 20);
    const double width = text_width(test_fonts().regular, "l", 7);
    page.items = {TextRun{Face::regular, 7, {10.3, 30}, width, "l", ink, artifact}};
    for (const double dpi : resolutions) {
      CAPTURE(dpi, static_cast<int>(ink.red));
      const Dots dots = dots_of(page, dpi);
      const auto top = static_cast<std::size_t>((30 - 0.7 * 7) / 72 * dpi);
      const auto foot = static_cast<std::size_t>(29.5 / 72 * dpi);
      for (std::size_t y = top; y < foot; ++y) {
        CHECK(black_runs(dots.width, [&](std::size_t x) { return dots.is_black(x, y); }).size() ==
              1);
      }
    }
  }
}

}  // namespace
}  // namespace tub::exporting
