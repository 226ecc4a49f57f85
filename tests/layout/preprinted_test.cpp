// Labels for one ink: symbols in the frames that the stock carries, the rest of the frames filled.
#include "layout/labels/preprinted.h"

#include <catch2/catch.hpp>
#include <cmath>

#include "base/error.h"
#include "layout/labels/measures.h"
#include "layout/pages/checks.h"
#include "layout_test.h"

namespace tub::layout {
namespace {

constexpr Colour red{226, 0, 26};

Path diamond(Point middle, double side_mm, Colour fill, int element) {
  const double half = side_mm * mm / std::sqrt(2.0);
  Path path;
  path.segments = {MoveTo{{middle.x, middle.y - half}}, LineTo{{middle.x + half, middle.y}},
                   LineTo{{middle.x, middle.y + half}}, LineTo{{middle.x - half, middle.y}},
                   ClosePath{}};
  path.fill = fill;
  path.element = element;
  return path;
}

TextRun word(const std::string& text, Point at, int element) {
  return {Face::regular, 7.5, at, text_width(test_fonts().regular, text, 7.5), text, {}, element};
}

/// A name, a pictogram of 16 mm with its middle 30 mm down, words beside it and words below it.
Page label(double words_below_mm = 60) {
  Page page;
  page.width = 74 * mm;
  page.height = 105 * mm;
  page.sheet = "container_label";
  page.elements = {Element::of(Role::section), Element::of(Role::paragraph, 0),
                   Element::figure("corrosion", 0), Element::of(Role::paragraph, 0),
                   Element::of(Role::paragraph, 0)};
  const Point middle{15.3 * mm, 30 * mm};
  page.items = {word("Dry acid", {4 * mm, 10 * mm}, 1),
                diamond(middle, 16, red, 2),
                diamond(middle, 14, Colour{255, 255, 255}, 2),
                Box{{14 * mm, 29 * mm}, 2 * mm, 2 * mm, Colour{}, {}, 2},
                word("Danger", {30 * mm, 30 * mm}, 3),
                word("Keep locked up.", {4 * mm, words_below_mm * mm}, 4)};
  return page;
}

Stock framed(std::vector<PreprintedFrame> frames) {
  Stock stock{.name = "framed", .width_mm = 74, .height_mm = 105};
  stock.frames = std::move(frames);
  return stock;
}

Page used(const Page& page, std::vector<PreprintedFrame> frames) {
  return on_preprinted(page, framed(std::move(frames)), test_fonts());
}

Point place_of(const Page& page, const std::string& text) {
  for (const Item& item : page.items) {
    const TextRun* const run = std::get_if<TextRun>(&item);
    if (run != nullptr && run->text == text) return {run->origin.x / mm, run->origin.y / mm};
  }
  FAIL("no " << text);
  return {};
}

TEST_CASE("a symbol stands in the middle of its frame, which is not drawn") {
  const Page page = used(label(), {{16.3, 36, 16}});
  CHECK(measure_label(page, test_fonts()).colourless_frames <= 1);  // the white field is no frame
  for (const Item& item : page.items) {
    const Path* const path = std::get_if<Path>(&item);
    if (path != nullptr) CHECK_FALSE(path->fill == red);
    const Box* const symbol = std::get_if<Box>(&item);
    if (symbol == nullptr) continue;
    CHECK(symbol->corner.x / mm == Approx(15));
    CHECK(symbol->corner.y / mm == Approx(35));
  }
}

TEST_CASE("what stands beside and below a pictogram moves down with it, what is above stays") {
  const Page page = used(label(), {{15.3, 36, 16}});
  CHECK(place_of(page, "Dry acid").y == Approx(10));
  CHECK(place_of(page, "Danger").y == Approx(36));
  CHECK(place_of(page, "Keep locked up.").y == Approx(66));
}

TEST_CASE("frames without a pictogram are filled with black") {
  const Page page = used(label(90), {{15.3, 36, 16}, {15.3, 60, 16}});
  const Path& filled = std::get<Path>(page.items.back());
  CHECK(filled.fill == Colour{});
  CHECK(*diamond_side(filled) / mm == Approx(16));
  const Bounds box = bounds_of(page.items.back(), test_fonts());
  CHECK((box.top + box.bottom) / 2 / mm == Approx(60));
}

TEST_CASE("a stock whose frames do not serve is refused with what is in the way") {
  CHECK_THROWS_WITH(used(label(), {}),
                    Catch::Contains("a bitmap has one ink") && Catch::Contains("carries none"));
  CHECK_THROWS_WITH(used(label(), {{15.3, 36, 23}}),
                    Catch::Contains("a pictogram of 16.0 mm does not belong in a frame of 23 mm"));
  CHECK_THROWS_WITH(used(label(), {{15.3, 28, 16}}),
                    Catch::Contains("takes 2.0 mm more than framed has above its frames"));
  CHECK_THROWS_WITH(used(label(), {{15.3, 36, 16}, {15.3, 66, 16}}),
                    Catch::Contains("\"Keep locked up.\" would stand in a frame of framed"));
}

TEST_CASE("a label with more pictograms than the stock has frames is refused") {
  Page page = label(90);
  page.elements.push_back(Element::figure("harmful", 0));
  page.items.emplace_back(diamond({15.3 * mm, 55 * mm}, 16, red, 5));
  CHECK_THROWS_WITH(used(page, {{15.3, 36, 16}}),
                    Catch::Contains("the label has 2 pictograms, and framed carries 1 frames"));
}

}  // namespace
}  // namespace tub::layout
