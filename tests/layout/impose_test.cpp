// Labels on sheets of labels: each in its place, corrected as the printer needs it.
#include "layout/labels/impose.h"

#include <algorithm>
#include <catch2/catch.hpp>

#include "base/error.h"
#include "base/text.h"
#include "layout/pages/checks.h"
#include "layout_test.h"

namespace tub::layout {
namespace {

/// How far a test label's frame is from its edge: more than any stock keeps free.
constexpr double inset_mm = 4.5;
constexpr double word_x_mm = 6;
constexpr double word_y_mm = 10;

/// A label of that sheet with one word and a frame.
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
  const double inset = inset_mm * mm;
  page.items = {Box{{inset, inset},
                    page.width - 2 * inset,
                    page.height - 2 * inset,
                    {},
                    Stroke{0.7, {}},
                    artifact},
                TextRun{Face::regular, 9, {word_x_mm * mm, word_y_mm * mm}, width, word, {}, 1}};
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
  return impose(labels(stock, count), stock, imposition, test_fonts());
}

TEST_CASE("labels fill a sheet row by row, each in its place") {
  const Stock& stock = test_stock("a4_2x4_99x68");
  const std::vector<Page> sheets = imposed(stock, 3);
  REQUIRE(sheets.size() == 1);
  CHECK(sheets[0].width == Approx(210 * mm));
  CHECK(place_of(sheets[0], "tag 1").x == Approx(4.65 + word_x_mm));
  CHECK(place_of(sheets[0], "tag 1").y == Approx(13.1 + word_y_mm));
  CHECK(place_of(sheets[0], "tag 2").x == Approx(4.65 + 101.6 + word_x_mm));
  CHECK(place_of(sheets[0], "tag 2").y == Approx(13.1 + word_y_mm));
  CHECK(place_of(sheets[0], "tag 3").x == Approx(4.65 + word_x_mm));
  CHECK(place_of(sheets[0], "tag 3").y == Approx(13.1 + 67.7 + word_y_mm));
}

TEST_CASE("the first label takes the first free position, and later sheets begin at theirs") {
  const Stock& stock = test_stock("a4_2x4_99x68");
  const std::vector<Page> sheets = imposed(stock, 4, {.first = 7, .correction = {}});
  REQUIRE(sheets.size() == 2);
  CHECK(place_of(sheets[0], "tag 1").y == Approx(13.1 + 3 * 67.7 + word_y_mm));
  CHECK(place_of(sheets[0], "tag 2").x == Approx(4.65 + 101.6 + word_x_mm));
  CHECK(place_of(sheets[1], "tag 3").y == Approx(13.1 + word_y_mm));
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
  const double corner = place_of(corrected, "tag 8").y - word_y_mm;
  CHECK(corner * 1.004 == Approx(13.1 + 3 * 67.7));
  CHECK(std::get<Box>(corrected.items.front()).height == Approx((67.7 - 2 * inset_mm) * mm));
}

TEST_CASE("a label alone on its stock is only moved") {
  const Stock& stock = test_stock("label_74x52");
  const PrinterCorrection off{.right_mm = 0.4, .down_mm = 0, .width = 1, .height = 1};
  const std::vector<Page> pages = imposed(stock, 2, {.first = 1, .correction = off});
  REQUIRE(pages.size() == 2);
  CHECK(place_of(pages[1], "tag 2").x == Approx(word_x_mm - 0.4));
  CHECK(place_of(imposed(stock, 1).at(0), "tag 1").x == Approx(word_x_mm));
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
  CHECK_THROWS_WITH(impose(labels(test_stock("label_74x52"), 1), stock, {}, test_fonts()),
                    Catch::Contains("a label of 74.0 x 52.0 mm does not belong on a4_2x4_99x68"));
}

TEST_CASE("what stands on the part of a label that its stock keeps free is refused") {
  const Stock& stock = test_stock("a4_2x4_99x68");
  std::vector<Page> pages = labels(stock, 1);
  std::get<TextRun>(pages[0].items[1]).origin.x = 1.2 * mm;
  CHECK_THROWS_WITH(impose(pages, stock, {}, test_fonts()),
                    Catch::Contains("\"tag 1\" of dose_tag is 1.20 mm from the edge, and "
                                    "a4_2x4_99x68 keeps 1.5 mm free"));
}

TEST_CASE("a correction never moves ink past the paper") {
  const Stock& stock = test_stock("label_74x52");
  const PrinterCorrection off{.right_mm = 4.9, .down_mm = 0, .width = 1, .height = 1};
  CHECK_THROWS_WITH(imposed(stock, 1, {.correction = off}),
                    Catch::Contains("would be printed 0.52 mm past the paper's edge"));
}

TEST_CASE("a larger stock is not named where only a wider margin helps") {
  Stock stock = test_stock("label_74x52");
  stock.keep_out_mm = 0;
  std::vector<Page> pages = labels(stock, 1);
  std::get<TextRun>(pages[0].items[1]).origin.x = -1 * mm;
  try {
    impose(pages, stock, {}, test_fonts());
    FAIL("nothing was thrown");
  } catch (const Error& error) {
    const Diagnostic& found = error.diagnostics().front();
    CHECK(found.message.find("past the paper's edge") != std::string::npos);
    CHECK(found.help.find("stock") == std::string::npos);
    CHECK(found.help.find("widen the margin") == 0);
  }
}

TEST_CASE("a single label with bleed says where it is trimmed, and its ground reaches past") {
  const Stock& stock = test_stock("label_74x52");
  std::vector<Page> pages = labels(stock, 1);
  pages[0].items.insert(pages[0].items.begin(),
                        Box{{0, 0}, pages[0].width, 9 * mm, Colour{}, {}, artifact});
  const Page page = impose(pages, stock, {.bleed_mm = 2}, test_fonts()).at(0);
  CHECK(page.width == Approx(78 * mm));
  CHECK(page.trim == Area{{2 * mm, 2 * mm}, 74 * mm, 52 * mm});
  CHECK(page.bleed->corner == Point{0, 0});
  CHECK(page.bleed->width == Approx(78 * mm));
  const Box& ground = std::get<Box>(page.items.front());
  CHECK(ground.corner == Point{0, 0});
  CHECK(ground.width == Approx(78 * mm));
  CHECK(ground.height == Approx(11 * mm));  // its lower edge is not the label's
  CHECK(place_of(page, "tag 1").x == Approx(2 + word_x_mm));
}

TEST_CASE("crop marks point at the corners from outside, never into the label or its bleed") {
  const Stock& stock = test_stock("label_74x52");
  const Page page = imposed(stock, 1, {.bleed_mm = 2, .crop_marks = CropMarks::corners}).at(0);
  CHECK(page.width == Approx((74 + 2 * 5) * mm));  // 2 mm of bleed, 3 mm of mark
  int marks = 0;
  for (const Item& item : page.items) {
    const Rule* const rule = std::get_if<Rule>(&item);
    if (rule == nullptr) continue;
    ++marks;
    const bool is_level = rule->from.y == rule->to.y;
    const double place = is_level ? rule->from.y : rule->from.x;
    const double far_edge = is_level ? (5 + 52) * mm : (5 + 74) * mm;
    CHECK((place == Approx(5 * mm) || place == Approx(far_edge)));
    const double nearest = is_level ? rule->to.x : rule->to.y;
    CHECK((nearest <= 3 * mm + 1e-9 || nearest >= (is_level ? 81 : 59) * mm - 1e-9));
  }
  CHECK(marks == 8);
}

TEST_CASE("crop marks of a sheet stand once at each edge of its columns and rows") {
  const Stock& stock = test_stock("letter_2x5_89x51");  // its labels touch
  const Page sheet = imposed(stock, 1, {.crop_marks = CropMarks::corners}).at(0);
  int marks = 0;
  for (const Item& item : sheet.items) marks += std::holds_alternative<Rule>(item) ? 1 : 0;
  CHECK(marks == 2 * 3 + 2 * 6);
}

TEST_CASE("bleed and crop marks that find no room are refused with what there is") {
  CHECK_THROWS_WITH(imposed(test_stock("a4_2x4_99x68"), 1, {.bleed_mm = 2}),
                    Catch::Contains("a bleed of 2 mm would reach the next label: around each label "
                                    "of a4_2x4_99x68 there are 0.00 mm"));
  CHECK_THROWS_WITH(
      imposed(test_stock("a4_2x2_105x149"), 1, {.crop_marks = CropMarks::corners}),
      Catch::Contains("crop marks need 4 mm beside the labels, and a4_2x2_105x149 has 0 mm"));
}

/// The rules of a page that start on a line of that height or at that distance from the left.
std::vector<double> marks_of(const Page& page, bool are_across) {
  std::vector<double> places;
  for (const Item& item : page.items) {
    const Rule* const rule = std::get_if<Rule>(&item);
    if (rule == nullptr || (rule->from.x == rule->to.x) != are_across) continue;
    places.push_back((are_across ? rule->from.x : rule->from.y) / mm);
  }
  return places;
}

TEST_CASE("an alignment page has a mark at each millimetre of both axes, and every label") {
  const Stock& stock = test_stock("a4_2x4_99x68");
  const Page page = alignment_page(stock, {"Alignment page", "Print at 100 %"}, test_fonts());
  for (const bool are_across : {true, false}) {
    const std::vector<double> places = marks_of(page, are_across);
    REQUIRE(places.size() == (are_across ? 187 : 274));  // 20 to 206 and to 293 mm
    for (std::size_t i = 0; i < places.size(); ++i) {
      CHECK(places[i] == Approx(20 + static_cast<double>(i)));
    }
  }
  int outlines = 0;
  for (const Item& item : page.items) outlines += std::holds_alternative<Path>(item) ? 1 : 0;
  CHECK(outlines == 8);
  CHECK(tree_faults(page) == std::vector<std::string>{});
}

TEST_CASE("the marks that an alignment page's note speaks of are on its rulers") {
  for (const Stock& stock :
       read_stocks(read_file(TUB_SOURCE_DIR "/templates/stocks.json"), "stocks.json")) {
    CAPTURE(stock.name);
    const Page page = alignment_page(stock, {"Title", "A note of a few words"}, test_fonts());
    const AlignmentMarks marks = alignment_marks(stock);
    for (const bool are_across : {true, false}) {
      const std::vector<double> places = marks_of(page, are_across);
      for (const int mark : {marks.place, marks.from, marks.to}) {
        CHECK(std::count(places.begin(), places.end(), Approx(mark)) == 1);
      }
    }
  }
}

TEST_CASE("a corrected alignment page is the page moved against the printer") {
  const Stock& stock = test_stock("a4");
  const Page page = alignment_page(stock, {"Alignment page", "Print at 100 %"}, test_fonts());
  const Page moved = corrected(page, {.right_mm = 0.4, .down_mm = -0.2, .width = 1, .height = 1});
  CHECK(marks_of(moved, true).front() == Approx(20 - 0.4));
  CHECK(marks_of(moved, false).front() == Approx(20 + 0.2));
}

}  // namespace
}  // namespace tub::layout
