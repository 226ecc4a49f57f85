// The text dump: every item once, in reading order, readable back.
#include "export/dump.h"

#include <algorithm>
#include <catch2/catch.hpp>

#include "export_test.h"

namespace tub::exporting {
namespace {

TEST_CASE("a dump names elements in reading order, each with its items, then the artifacts") {
  Page page;
  page.width = 100;
  page.height = 50.126;
  page.sheet = "dose_tag";
  page.title = "a \"b\" \\";
  page.language = "en";
  page.elements = {Element::of(Role::section, -1), Element::of(Role::heading, 0),
                   Element::of(Role::figure, 0), Element::of(Role::header_cell, 0)};
  page.elements[1].level = 2;
  page.elements[1].language = "de";
  page.elements[2].alt = "box";
  page.elements[3].scope = Element::Scope::row;
  page.elements[3].columns = 2;
  page.items = {
      TextRun{Face::bold, 9.5, {1, 2.005}, 12.3456, "say \"x\\\"", {1, 2, 255}, 3},
      Rule{{0, 1}, {2, 3}, 0.35, {}, artifact},
      Box{{1, 1}, 2, 3, Colour{212, 212, 212}, Stroke{0.5, {}}, 2},
      Path{{MoveTo{{1, 1}}, CurveTo{{0, 5}, {7, 2}, {3, 3}}, ClosePath{}}, {}, {}, false, 2},
      TextRun{Face::regular, 20, {5, 6}, 7, "B", {}, 1}};
  CHECK(dump_text(std::vector<Page>{page}) ==
        "page 1 of 1 dose_tag 100.00 x 50.13 en \"a \\\"b\\\" \\\\\"\n"
        "  section\n"
        "    heading 2 in de\n"
        "      text 5.00 6.00 width 7.00 regular 20 #000000 \"B\"\n"
        "    figure \"box\"\n"
        "      box 1.00 1.00 size 2.00 x 3.00 fill #D4D4D4 stroke 0.50 #000000\n"
        "      path 3 segments in 0.00 1.00 to 7.00 5.00\n"
        "    header_cell row spans 2\n"
        "      text 1.00 2.00 width 12.35 bold 9.5 #0102FF \"say \\\"x\\\\\\\"\"\n"
        "  artifacts\n"
        "    rule 0.00 1.00 to 2.00 3.00 width 0.35 #000000\n");
}

TEST_CASE("a dump has as many item lines as the pages have items") {
  const std::vector<Page> pages = sample_pages();
  const std::string dump = dump_text(pages);
  std::size_t items = 0;
  std::size_t elements = 0;
  for (const Page& page : pages) {
    items += page.items.size();
    elements += page.elements.size();
  }
  const auto lines = static_cast<std::size_t>(std::count(dump.begin(), dump.end(), '\n'));
  CHECK(lines == items + elements + 2 * pages.size());
}

}  // namespace
}  // namespace tub::exporting
