// A whole card on paper: nothing lost, nothing overlapping, everything where the style says.
#include <algorithm>
#include <catch2/catch.hpp>
#include <map>
#include <sstream>

#include "base/error.h"
#include "base/text.h"
#include "demo_card.h"
#include "layout/pages/checks.h"
#include "layout/pages/lay_out.h"
#include "layout_test.h"
#include "words_of.h"

namespace tub::layout {
namespace {

std::vector<Page> pages_on(const std::string& stock, const Document& document = demo_card()) {
  return lay_out(document, test_style(), test_stock(stock), test_fonts());
}

const TextRun& run_with(const Page& page, const std::string& text) {
  for (const Item& item : page.items) {
    const TextRun* const run = std::get_if<TextRun>(&item);
    if (run && run->text.find(text) != std::string::npos) return *run;
  }
  throw std::runtime_error("no run with " + text);
}

bool has(const Page& page, const std::string& text) {
  const std::map<std::string, int> words = words_on(page);
  return words.count(text) > 0;
}

void check_page(const Page& page) {
  CHECK(overlaps(page, test_fonts()) == std::vector<std::string>{});
  CHECK(outside(page, test_fonts(), 5 * mm) == std::vector<std::string>{});
  CHECK(tree_faults(page) == std::vector<std::string>{});
}

TEST_CASE("a card of five products and four second pours fits on one A4 page") {
  const std::vector<Page> pages = pages_on("a4");
  REQUIRE(pages.size() == 1);
  CHECK(pages[0].width == Approx(210 * 72 / 25.4));
  CHECK(pages[0].height == Approx(297 * 72 / 25.4));
  check_page(pages[0]);
}

TEST_CASE("the words on the page are the words of the document") {
  CHECK(words_on(pages_on("a4")[0]) == words_of(demo_card()));
}

TEST_CASE("on Letter the card takes two pages, and the sanitizer begins the second") {
  const std::vector<Page> pages = pages_on("letter");
  REQUIRE(pages.size() == 2);
  for (const Page& page : pages) {
    check_page(page);
    for (const char* const every : {"Never", "Sharp", "555-0142", "1340\u202FL", "reading"}) {
      INFO(every);
      CHECK(has(page, every));
    }
  }
  CHECK(has(pages[0], "Dry"));
  CHECK_FALSE(has(pages[0], "Dichlor"));
  CHECK(run_with(pages[1], "Dichlor").origin.y < run_with(pages[1], "Calcium").origin.y);
  CHECK(run_with(pages[0], "1 of 2").text == "tubwright 1.0 · startup card · 1 of 2");
  CHECK(run_with(pages[1], "2 of 2").element == artifact);
}

TEST_CASE("a page is filled before it is broken, wherever the sanitizer would like to begin one") {
  Document card = demo_card();
  for (Block& block : card.blocks) {
    auto* const ladder = std::get_if<Ladder>(&block.content);
    if (ladder == nullptr) continue;
    for (Rung& rung : ladder->rungs) rung.prefer_break_before = false;
    ladder->rungs.at(1).prefer_break_before = true;
    // Too long for one page, and nearly nothing stands before the second rung.
    ladder->rungs.push_back(ladder->rungs.at(2));
    ladder->rungs.push_back(ladder->rungs.at(2));
  }
  const std::vector<Page> pages = pages_on("a4", card);
  REQUIRE(pages.size() == 2);
  double lowest = 0;
  for (const Item& item : pages[0].items) {
    const auto* const run = std::get_if<TextRun>(&item);
    if (run != nullptr && run->origin.y < 0.95 * pages[0].height) {
      lowest = std::max(lowest, run->origin.y);
    }
  }
  CHECK(lowest > 0.72 * pages[0].height);
}

TEST_CASE("two edges carry the card: the sheet edge and the text edge") {
  const Page page = pages_on("a4")[0];
  for (const char* const text : {"Startup", "Garden", "For ", "Alkalinity", "Stuck?", "job "}) {
    INFO(text);
    CHECK(run_with(page, text).origin.x == Approx(14 * mm).margin(0.001));
  }
  for (const char* const text : {"Sequestrant", "Dry acid", "pour"}) {
    INFO(text);
    CHECK(run_with(page, text).origin.x == Approx(28.5 * mm).margin(0.001));
  }
}

TEST_CASE("tick, amount, wait, test and chip stand on one baseline") {
  const Page page = pages_on("a4")[0];
  const double baseline = run_with(page, "150\u202Fg").origin.y;
  CHECK(run_with(page, "12 level").origin.y == baseline);
  CHECK(run_with(page, "expect 158–175").origin.y == baseline);
}

TEST_CASE("a bar is exactly as long as the range that is printed beside it") {
  // pH is expected to fill its target from 7.4 to 7.6: its bar goes from bank to bank. Band and
  // banks: from 36 % to 66 % of a plot of 100 mm that begins 52 mm from the sheet edge.
  const Page page = pages_on("a4")[0];
  const double left = (14 + 52 + 36 + 0.35) * mm;
  const double right = (14 + 52 + 66 - 0.35) * mm;
  const auto is_bar = [&](const Item& item) {
    const Box* const box = std::get_if<Box>(&item);
    return box && std::abs(box->corner.x - left) < 0.01 &&
           std::abs(box->corner.x + box->width - right) < 0.01 &&
           std::abs(box->height - 2.8 * mm) < 0.01;
  };
  CHECK(std::count_if(page.items.begin(), page.items.end(), is_bar) == 1);
}

TEST_CASE("grey is used for targets only: one band, and a chip for each Band") {
  const Page page = pages_on("a4")[0];
  const auto is_grey = [](const Item& item) {
    const Box* const box = std::get_if<Box>(&item);
    return box && box->fill == Colour{212, 212, 212};
  };
  CHECK(std::count_if(page.items.begin(), page.items.end(), is_grey) == 1 + 5 + 2);
}

TEST_CASE("five millimetres of clear paper stand above the foot line") {
  for (const char* const stock : {"a4", "letter"}) {
    for (const Page& page : pages_on(stock)) {
      const TextRun& foot = run_with(page, "job 7K4Q");
      const double top = bounds_of(foot, test_fonts()).top;
      for (const Item& item : page.items) {
        const Bounds bounds = bounds_of(item, test_fonts());
        if (bounds.top < top) CHECK(bounds.bottom <= top - 5 * mm);
      }
    }
  }
}

TEST_CASE("a second pour is set in and smaller than the first") {
  const Page page = pages_on("a4")[0];
  const TextRun& first = run_with(page, "90\u202Fg");
  const TextRun& second = run_with(page, "45\u202Fg");
  CHECK(first.size == 20);
  CHECK(first.face == Face::bold);
  CHECK(second.size == 15);
  CHECK(second.face == Face::regular);
  CHECK(second.origin.x > first.origin.x);
}

TEST_CASE("the same document gives the same page") {
  const Page once = pages_on("a4")[0];
  const Page again = pages_on("a4")[0];
  REQUIRE(once.items.size() == again.items.size());
  for (std::size_t i = 0; i < once.items.size(); ++i) {
    const TextRun* const a = std::get_if<TextRun>(&once.items[i]);
    const TextRun* const b = std::get_if<TextRun>(&again.items[i]);
    if (a && b) CHECK(a->origin == b->origin);
  }
}

TEST_CASE("a vessel with a name of forty characters keeps its volume in full") {
  Document document = demo_card();
  auto& masthead = std::get<Masthead>(document.blocks[0].content);
  masthead.title = plain("Whirlpool at the old harbour watchhouse");
  for (const Page& page : pages_on("a4", document)) {
    check_page(page);
    CHECK(run_with(page, "1340\u202FL").size >= 20);
  }
}

TEST_CASE("in German, on either paper, nothing overlaps and no word is lost") {
  for (const char* const stock : {"a4", "letter"}) {
    std::map<std::string, int> out;
    for (const Page& page : pages_on(stock, german_card())) {
      check_page(page);
      for (const auto& [word, count] : words_on(page)) out[word] = std::max(out[word], count);
    }
    for (const auto& word : words_of(german_card())) {
      INFO(word.first);
      CHECK(out[word.first] >= 1);
    }
  }
}

TEST_CASE("a reading that was not taken says so and has no ring") {
  Document document = german_card();
  auto& row = std::get<ChannelReading>(std::get<Channel>(document.blocks[1].content).rows[1]);
  row.now = "nicht gemessen";
  row.now_at.reset();
  const Page page = pages_on("a4", document)[0];
  check_page(page);
  const auto rings = [](const Page& each) {
    return std::count_if(each.items.begin(), each.items.end(), [](const Item& item) {
      const Path* const path = std::get_if<Path>(&item);
      return path && path->stroke && path->fill == Colour{255, 255, 255};
    });
  };
  CHECK(rings(page) + 1 == rings(pages_on("a4", german_card())[0]));
}

TEST_CASE("tables, charts, codes and rooms stand on one page without touching") {
  const std::vector<Page> pages = pages_on("a4", demo_tables());
  REQUIRE(pages.size() == 1);
  check_page(pages[0]);
  for (const char* const word : {"heat", "each", "level", "Scan", "target", "afterwards"}) {
    INFO(word);
    CHECK(has(pages[0], word));
  }
}

TEST_CASE("a room takes the height that the page has left, its answers stand at the foot") {
  const Page page = pages_on("a4", demo_tables())[0];
  const Bounds foot = bounds_of(run_with(page, "job 7K4Q"), test_fonts());
  const auto is_answer = [](const Item& item) {
    const Box* const box = std::get_if<Box>(&item);
    return box && box->stroke && std::abs(box->width - (28 - 0.35) * mm) < 0.01;
  };
  const auto found = std::find_if(page.items.begin(), page.items.end(), is_answer);
  REQUIRE(found != page.items.end());
  CHECK(bounds_of(*found, test_fonts()).bottom < foot.top - 4.4 * mm);
  CHECK(bounds_of(*found, test_fonts()).bottom > foot.top - 6 * mm);
}

TEST_CASE("amounts of a table begin on one edge and stand on their row's baseline") {
  const Page page = pages_on("a4", demo_tables())[0];
  CHECK(run_with(page, "110\u202Fg").origin.x == run_with(page, "60\u202Fg").origin.x);
  CHECK(run_with(page, "15 level").origin.x == run_with(page, "110\u202Fg").origin.x);
  CHECK(run_with(page, "110\u202Fg").origin.y == run_with(page, "240").origin.y);
}

TEST_CASE("a row with more cells than the table has columns is an error at its place") {
  Document document = demo_tables();
  auto& table = std::get<Table>(document.blocks[2].content);
  table.rows[0].cells.push_back({plain("one more"), 1});
  CHECK_THROWS_WITH(pages_on("a4", document), Catch::Contains("more cells than its 6 columns") &&
                                                  Catch::Contains("demo card"));
}

TEST_CASE("names of a named ladder stand equally far below their lines") {
  const Page page = pages_on("a4", demo_tables())[0];
  CHECK(run_with(page, "After each use").origin.y == run_with(page, "2\u202Fg").origin.y);
  CHECK(run_with(page, "Every week").origin.y == run_with(page, "Test and write").origin.y);
}

TEST_CASE("a long name takes the width that the figure leaves, on a second line") {
  const Page page = pages_on("a4", german_card())[0];
  CHECK(run_with(page, "Oberhofmeister").origin.y == run_with(page, "1340\u202FL").origin.y);
}

TEST_CASE("what is too wide for its place is an error that names it and the millimetres") {
  Document document = demo_card();
  auto& masthead = std::get<Masthead>(document.blocks[0].content);
  masthead.title = plain(std::string(60, 'W'));
  CHECK_THROWS_WITH(pages_on("a4", document),
                    Catch::Contains("mm too wide for its place on startup_card") &&
                        Catch::Contains("where: demo card"));
}

TEST_CASE("a block higher than the page is an error that says how much is missing") {
  Document document = demo_card();
  auto& ladder = std::get<Ladder>(document.blocks[4].content);
  for (int i = 0; i < 60; ++i) ladder.rungs[1].notes.push_back(plain("One more line."));
  CHECK_THROWS_WITH(pages_on("a4", document), Catch::Contains("startup_card does not fit on a4") &&
                                                  Catch::Contains("mm are missing in height"));
}

TEST_CASE("a page that the style was not made for is refused as a whole") {
  CHECK_THROWS_WITH(
      lay_out(demo_card(), test_style(),
              Stock{.name = "80x120mm", .width_mm = 80, .height_mm = 120}, test_fonts()),
      "error: startup_card does not fit on 80x120mm, which is 80 × 120 mm\n"
      "  where: startup_card\n"
      "  help:  take a stock of at least 200 × 250 mm: `tubwright list stocks`\n");
}

TEST_CASE("a page that ends inside a ladder says which step is on the next") {
  Document document = demo_card();
  auto& ladder = std::get<Ladder>(document.blocks[4].content);
  ladder.continues = plain("On the next page: step {key}.");
  CHECK_FALSE(has(pages_on("a4", document)[0], "On the next page"));
  const std::vector<Page> pages = pages_on("letter", document);
  REQUIRE(pages.size() == 2);
  for (const Page& page : pages) check_page(page);
  const TextRun line = run_with(pages[0], "On the next page");
  const std::string key = line.text.substr(line.text.find("step ") + 5, 1);
  INFO(line.text);
  CHECK(has(pages[1], key));
  CHECK_FALSE(has(pages[1], "On the next page"));
}

TEST_CASE("the last point of a title does not stand alone on its line") {
  Document document = demo_card();
  auto& rungs = std::get<Ladder>(document.blocks[4].content).rungs;
  Rung& gate = rungs.back();
  gate.title = plain("At 100\u202F°F, get in when all are true:");
  gate.aside = {plain("first point"), plain("second point"), plain("third point"), plain("fourth")};
  for (int more = 0; more < 30; ++more) {
    const Page page = pages_on("a4", document).back();
    check_page(page);
    CHECK(run_with(page, "third point").origin.y == run_with(page, "fourth").origin.y);
    std::get<Plain>(gate.aside[1].parts[0]).text += "x";
  }
}

TEST_CASE("a logo stands in its box at the right edge, clear of the facts, in its own shape") {
  Document document = demo_card();
  auto& masthead = std::get<Masthead>(document.blocks[0].content);
  for (const auto& [wide, high] : {std::pair{400, 100}, std::pair{100, 400}, std::pair{9, 3}}) {
    masthead.logo = Picture{"bytes", wide, high, "logo of the shop"};
    const Page page = pages_on("a4", document)[0];
    check_page(page);
    const auto found = std::find_if(page.items.begin(), page.items.end(), [](const Item& item) {
      return std::holds_alternative<Image>(item);
    });
    REQUIRE(found != page.items.end());
    const Image& image = std::get<Image>(*found);
    CHECK(image.corner.x + image.width == Approx(page.width - 14 * mm));
    CHECK(image.width / image.height == Approx(static_cast<double>(wide) / high));
    CHECK(image.width <= 34 * mm + 1e-9);
    CHECK(image.height <= 8.4 * mm + 1e-9);
    CHECK(page.elements.at(static_cast<std::size_t>(image.element)).alt == "logo of the shop");
  }
}

TEST_CASE("a control character or one without a glyph is an error that names it") {
  Document document = demo_card();
  auto& masthead = std::get<Masthead>(document.blocks[0].content);
  masthead.title = plain("Tub \u6D74");
  CHECK_THROWS_WITH(pages_on("a4", document), Catch::Contains("U+6D74"));
  masthead.title = plain("Tub\tone");
  CHECK_THROWS_WITH(pages_on("a4", document), Catch::Contains("U+0009"));
}

}  // namespace
}  // namespace tub::layout
