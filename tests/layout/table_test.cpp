// Tables that are longer than a page.
#include <algorithm>
#include <catch2/catch.hpp>

#include "base/error.h"
#include "layout/pages/checks.h"
#include "layout/pages/lay_out.h"
#include "layout_test.h"

namespace tub::layout {
namespace {

Document document_of(Table table) {
  Document document;
  document.sheet = "long_table";
  document.title = "A long table";
  document.language = "en";
  document.blocks.resize(2);
  document.blocks[0].content = Masthead{plain("Kind"), plain("Title"), {}, {}};
  document.blocks[1].content = std::move(table);
  return document;
}

Table table_of(int rows) {
  Table table;
  table.columns.resize(2);
  table.columns[0].head = plain("left head");
  table.columns[1].head = plain("right head");
  for (int i = 0; i < rows; ++i) {
    TableRow row;
    row.cells.resize(2);
    row.cells[0].content = plain("row " + std::to_string(i));
    row.cells[1].content = plain("cell");
    table.rows.push_back(row);
  }
  return table;
}

std::size_t count_on(const Page& page, const std::string& text) {
  std::size_t count = 0;
  for (const Item& item : page.items) {
    const auto* const run = std::get_if<TextRun>(&item);
    if (run != nullptr && run->text == text) ++count;
  }
  return count;
}

std::size_t tables_on(const Page& page) {
  return static_cast<std::size_t>(
      std::count_if(page.elements.begin(), page.elements.end(),
                    [](const Element& element) { return element.role == Role::table; }));
}

}  // namespace

TEST_CASE("a table longer than a page goes on under its heads, no row twice and none lost") {
  constexpr int rows = 120;
  const std::vector<Page> pages =
      lay_out(document_of(table_of(rows)), test_style(), test_stock("a4"), test_fonts());
  REQUIRE(pages.size() >= 3);
  for (int i = 0; i < rows; ++i) {
    std::size_t count = 0;
    for (const Page& page : pages) count += count_on(page, "row " + std::to_string(i));
    CHECK(count == 1);
  }
  for (const Page& page : pages) {
    CHECK(count_on(page, "left head") == 1);
    CHECK(tables_on(page) == 1);
    CHECK(tree_faults(page) == std::vector<std::string>{});
    CHECK(overlaps(page, test_fonts()) == std::vector<std::string>{});
    CHECK(outside(page, test_fonts(), 4) == std::vector<std::string>{});
  }
}

TEST_CASE("rows that are joined stay on one page") {
  Table table = table_of(90);
  for (std::size_t i = 1; i < table.rows.size(); i += 2) table.rows[i].is_joined = true;
  for (const Page& page :
       lay_out(document_of(table), test_style(), test_stock("a4"), test_fonts())) {
    for (int i = 0; i < 90; i += 2) {
      CHECK(count_on(page, "row " + std::to_string(i)) ==
            count_on(page, "row " + std::to_string(i + 1)));
    }
  }
}

TEST_CASE("a table on a label of one page never goes on on a second") {
  Document document = document_of(table_of(120));
  document.is_one_page = true;
  CHECK_THROWS_AS(lay_out(document, test_style(), test_stock("a4"), test_fonts()), Error);
}

}  // namespace tub::layout
