// What a page measures: pictograms, type, contrast.
#include "layout/labels/measures.h"

#include <catch2/catch.hpp>
#include <cmath>

#include "layout/pages/lay_out.h"
#include "layout_test.h"

using namespace tub;
using namespace tub::layout;

TEST_CASE("contrast is that of the definition") {
  CHECK(contrast_of({0, 0, 0}, {255, 255, 255}) == Approx(21));
  // Source: WCAG 2.1, understanding success criterion 1.4.3: #767676 on white is 4.54:1
  CHECK(contrast_of({0x76, 0x76, 0x76}, {255, 255, 255}) == Approx(4.54).margin(0.005));
  CHECK(contrast_of({255, 255, 255}, {255, 255, 255}) == Approx(1));
}

TEST_CASE("a label's measures are those of what was laid out on it") {
  Document document;
  document.sheet = "trial";
  document.language = std::string("en");
  Signs signs;
  signs.side_mm = 16;
  signs.signs = {{Pictogram::ghs_corrosion, "corrosion"}, {Pictogram::gloves, "gloves"}};
  Text text;
  text.paragraphs = {
      {plain("Two lines of body text that are long enough to be broken at the end of "
             "the first, which is as wide as the page is between its margins."),
       Rank::body},
      {plain("Small."), Rank::small}};
  Notice notice;
  notice.word = plain("Never mix");
  notice.look = Notice::Look::reversed;
  document.blocks = {{signs, Block::Pages::one, false, ""},
                     {text, Block::Pages::one, false, ""},
                     {notice, Block::Pages::one, false, ""}};
  const Page page = lay_out(document, test_style(), test_stock("a4"), test_fonts()).at(0);
  const LabelMeasures measures = measure_label(page, test_fonts());
  CHECK(measures.width_mm == Approx(210));
  CHECK(measures.height_mm == Approx(297));
  REQUIRE(measures.pictogram_sides_mm.size() == 1);  // a mandatory sign is no hazard pictogram
  CHECK(measures.pictogram_sides_mm[0] == Approx(16));
  CHECK(measures.colourless_frames == 0);
  // Noto Sans: x-height 0.536 em (its OS/2 table); small text is 8.5 pt on a card.
  CHECK(measures.least_x_height_mm == Approx(8.5 * 0.536 * 25.4 / 72).epsilon(1e-3));
  CHECK(measures.least_line_distance == Approx(12 / 9.5).epsilon(1e-3));
  CHECK(measures.least_contrast == Approx(21));
}

TEST_CASE("text on a ground too dark for it, and frames without red, are found") {
  Page page;
  page.width = 100;
  page.height = 100;
  page.items.emplace_back(Box{.corner = {0, 0},
                              .width = 50,
                              .height = 50,
                              .fill = Colour{100, 100, 100},
                              .stroke = {},
                              .element = artifact});
  page.items.emplace_back(TextRun{.face = Face::regular,
                                  .size = 8,
                                  .origin = {10, 10},
                                  .width = 10,
                                  .text = "x",
                                  .colour = {0, 0, 0},
                                  .element = 1});
  Path frame;
  frame.segments = {MoveTo{{50, 0}}, LineTo{{100, 50}}, LineTo{{50, 100}}, LineTo{{0, 50}},
                    ClosePath{}};
  frame.fill = Colour{0, 0, 0};
  frame.element = 2;
  page.items.emplace_back(frame);
  const LabelMeasures measures = measure_label(page, test_fonts());
  CHECK(measures.least_contrast == Approx(contrast_of({0, 0, 0}, {100, 100, 100})));
  CHECK(measures.least_contrast < 7);
  REQUIRE(measures.pictogram_sides_mm.size() == 1);
  CHECK(measures.pictogram_sides_mm[0] == Approx(100 / std::sqrt(2.0) * 25.4 / 72));
  CHECK(measures.colourless_frames == 1);
}
