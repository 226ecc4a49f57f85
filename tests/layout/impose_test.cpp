// Labels on sheets of labels: each in its place, corrected as the printer needs it.
#include "layout/impose.h"

#include <catch2/catch.hpp>

#include "base/error.h"
#include "base/text.h"
#include "layout/checks.h"
#include "layout_test.h"

namespace tub {
namespace {

/// A label of that sheet with one word and a box at its edge.
Page label(const Stock& stock, const std::string& word) {
  const Stock size = label_of(stock);
  Page page;
  page.width = size.width_mm * mm;
  page.height = size.height_mm * mm;
  page.sheet = "dose_tag";
  page.title = "A tag";
  page.language = "en";
  page.elements = {Element::of(Role::section), Element::of(Role::paragraph, 0)};
  const double width = text_width(test_fonts().regular, word, 9);
  page.items = {Box{{0, 0}, page.width, page.height, {}, Stroke{0.7, {}}, artifact},
                TextRun{Face::regular, 9, {3 * mm, 6 * mm}, width, word, {}, 1}};
  return page;
}

std::vector<Page> labels(const Stock& stock, int count) {
  std::vector<Page> pages;
  for (int i = 1; i <= count; ++i) pages.push_back(label(stock, "tag " + std::to_string(i)));
  return pages;
}

/// Where a word stands on the page, from the paper's upper left corner in millimetres.
Point place_of(const Page& page, const std::string& word) {
  for (const Item& item : page.items) {
    const TextRun* const run = std::get_if<TextRun>(&item);
    if (run != nullptr && run->text == word) return {run->origin.x / mm, run->origin.y / mm};
  }
  FAIL("no " << word);
  return {};
}

std::vector<Page> imposed(const Stock& stock, int count, const Imposition& imposition = {}) {
  return impose(labels(stock, count), stock, imposition);
}

TEST_CASE("labels fill a sheet row by row, each in its place") {
  const Stock& stock = test_stock("a4_2x4_99x68");
  const std::vector<Page> sheets = imposed(stock, 3);
  REQUIRE(sheets.size() == 1);
  CHECK(sheets[0].width == Approx(210 * mm));
  CHECK(place_of(sheets[0], "tag 1").x == Approx(4.65 + 3));
  CHECK(place_of(sheets[0], "tag 1").y == Approx(13.1 + 6));
  CHECK(place_of(sheets[0], "tag 2").x == Approx(4.65 + 101.6 + 3));
  CHECK(place_of(sheets[0], "tag 2").y == Approx(13.1 + 6));
  CHECK(place_of(sheets[0], "tag 3").x == Approx(4.65 + 3));
  CHECK(place_of(sheets[0], "tag 3").y == Approx(13.1 + 67.7 + 6));
}

TEST_CASE("the first label takes the first free position, and later sheets begin at theirs") {
  const Stock& stock = test_stock("a4_2x4_99x68");
  const std::vector<Page> sheets = imposed(stock, 4, {.first = 7, .correction = {}});
  REQUIRE(sheets.size() == 2);
  CHECK(place_of(sheets[0], "tag 1").y == Approx(13.1 + 3 * 67.7 + 6));
  CHECK(place_of(sheets[0], "tag 2").x == Approx(4.65 + 101.6 + 3));
  CHECK(place_of(sheets[1], "tag 3").y == Approx(13.1 + 6));
  CHECK(sheets[1].number == 2);
  CHECK(sheets[1].pages == 2);
}

TEST_CASE("a shift of a tenth of a millimetre is honoured") {
  const Stock& stock = test_stock("a4_3x7_64x38");
  const PrinterCorrection off{.right_mm = 0.1, .down_mm = -0.1, .width = 1, .height = 1};
  const Page plain = imposed(stock, 21).at(0);
  const Page corrected = imposed(stock, 21, {.first = 1, .correction = off}).at(0);
  for (const char* const word : {"tag 1", "tag 11", "tag 21"}) {
    CHECK(place_of(plain, word).x - place_of(corrected, word).x == Approx(0.1));
    CHECK(place_of(corrected, word).y - place_of(plain, word).y == Approx(0.1));
  }
}

TEST_CASE("a printer that stretches is met by a closer pitch, and labels keep their size") {
  const Stock& stock = test_stock("a4_2x4_99x68");
  const PrinterCorrection off{.right_mm = 0, .down_mm = 0, .width = 1, .height = 1.004};
  const Page corrected = imposed(stock, 8, {.first = 1, .correction = off}).at(0);
  // The eighth label's corner, printed 0.4 % too far down, comes to stand where it belongs.
  const double corner = place_of(corrected, "tag 8").y - 6;
  CHECK(corner * 1.004 == Approx(13.1 + 3 * 67.7));
  CHECK(std::get<Box>(corrected.items.front()).height == Approx(67.7 * mm));
}

TEST_CASE("a label alone on its stock is only moved") {
  const Stock& stock = test_stock("label_74x52");
  const PrinterCorrection off{.right_mm = 0.4, .down_mm = 0, .width = 1, .height = 1};
  const std::vector<Page> pages = imposed(stock, 2, {.first = 1, .correction = off});
  REQUIRE(pages.size() == 2);
  CHECK(place_of(pages[1], "tag 2").x == Approx(2.6));
  CHECK(place_of(imposed(stock, 1).at(0), "tag 1").x == Approx(3));
}

TEST_CASE("every label is a section of its own, read one after the other") {
  const Page sheet = imposed(test_stock("a4_2x4_99x68"), 8).at(0);
  CHECK(tree_faults(sheet) == std::vector<std::string>{});
  REQUIRE(sheet.elements.size() == 17);
  for (std::size_t i = 1; i < 17; i += 2) {
    CHECK(sheet.elements[i].role == Role::section);
    CHECK(sheet.elements[i].parent == 0);
    CHECK(sheet.elements[i + 1].parent == static_cast<int>(i));
  }
}

TEST_CASE("no two labels of any sheet overlap, and none leaves the paper") {
  for (const Stock& stock :
       read_stocks(read_file(TUB_SOURCE_DIR "/templates/stocks.json"), "stocks.json")) {
    if (!stock.grid) continue;
    CAPTURE(stock.name);
    const std::vector<Page> sheets = imposed(stock, stock.grid->labels());
    REQUIRE(sheets.size() == 1);
    CHECK(overlaps(sheets[0], test_fonts()) == std::vector<std::string>{});
  }
}

TEST_CASE("a position off the sheet, a wild correction and a foreign label are refused") {
  const Stock& stock = test_stock("a4_2x4_99x68");
  CHECK_THROWS_WITH(imposed(stock, 1, {.first = 9, .correction = {}}),
                    Catch::Contains("position 9 is not on the sheet: a4_2x4_99x68 has positions 1 "
                                    "to 8"));
  CHECK_THROWS_WITH(imposed(stock, 1, {.first = 0, .correction = {}}),
                    Catch::Contains("position 0 is not on the sheet"));
  const PrinterCorrection far{.right_mm = 5.1, .down_mm = -6, .width = 1.03, .height = 1};
  CHECK_THROWS_WITH(imposed(stock, 1, {.first = 1, .correction = far}),
                    Catch::Contains("a correction of 5.1 mm right is above the 5 mm") &&
                        Catch::Contains("a correction of -6 mm down") &&
                        Catch::Contains("a scale of 1.03 is further from 1 than 0.02"));
  CHECK_THROWS_WITH(impose(labels(test_stock("label_74x52"), 1), stock, {}),
                    Catch::Contains("a label of 74.0 x 52.0 mm does not belong on a4_2x4_99x68"));
}

TEST_CASE("the alignment page has a mark at each millimetre of both axes, and every label") {
  const Stock& stock = test_stock("a4_2x4_99x68");
  const Page page = alignment_page(stock, {"Alignment page", "Print at 100 %"}, test_fonts());
  int across = 0;
  int down = 0;
  int outlines = 0;
  for (const Item& item : page.items) {
    if (std::holds_alternative<Path>(item)) ++outlines;
    const Rule* const rule = std::get_if<Rule>(&item);
    if (rule == nullptr) continue;
    if (rule->from.x == rule->to.x) {
      CHECK(rule->from == Point{across * mm, 0});
      ++across;
    } else {
      CHECK(rule->from == Point{0, down * mm});
      ++down;
    }
  }
  CHECK(across == 211);  // 0 to 210 mm
  CHECK(down == 298);
  CHECK(outlines == 8);
  CHECK(tree_faults(page) == std::vector<std::string>{});
}

}  // namespace
}  // namespace tub
