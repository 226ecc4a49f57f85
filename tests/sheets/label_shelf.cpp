#include "label_shelf.h"

#include <algorithm>
#include <catch2/catch.hpp>
#include <map>

#include "../labels/label_data.h"
#include "../layout/layout_test.h"
#include "../planning/sample_job.h"
#include "fixture.h"
#include "layout/pages/checks.h"
#include "layout/pages/lay_out.h"
#include "planning/make_plan.h"
#include "project_text.h"
#include "sheets/compose.h"

namespace tub::sheets::test {
namespace {

const LabelTables& label_tables() {
  static const LabelTables tables = {{label_rules("clp"), label_rules("hazcom")},
                                     hazard_table(),
                                     label_statements(),
                                     classified_substances()};
  return tables;
}

const Style& style_named(const std::string& name) {
  static std::map<std::string, Style> read;
  const auto found = read.find(name);
  if (found != read.end()) return found->second;
  return read.emplace(name, Style::parse(project_text("templates/styles/" + name + ".json"), name))
      .first->second;
}

void append_fitted(const SheetSources& sources, const SheetTemplate& form, const Document& whole,
                   const Stock& stock, Printed& result) {
  for (int turn = 0;; ++turn) {
    try {
      std::vector<Page> laid;
      for (const Document& piece :
           compose_pieces(sources, form, language(whole.language), {whole.properties.product, turn})
               .value) {
        for (Page& page : lay_out(piece, style_named(form.style), stock, test_fonts())) {
          laid.push_back(std::move(page));
        }
      }
      result.pages.insert(result.pages.end(), laid.begin(), laid.end());
      result.turn = std::max(result.turn, turn);
      return;
    } catch (const Error&) {
      if (turn == static_cast<int>(form.given_up.size())) throw;
    }
  }
}

/// The words of a label's blocks, a line each.
class Reader {
 public:
  std::string read(const std::vector<Block>& blocks) {
    for (const Block& block : blocks) std::visit(*this, block.content);
    return text_;
  }

  void operator()(const Masthead& block) {
    for (const Words& words : {block.kind, block.title, block.figure}) add(words);
    for (const Words& fact : block.facts) add(fact);
  }
  void operator()(const Text& block) {
    for (const Paragraph& paragraph : block.paragraphs) add(paragraph.words);
  }
  void operator()(const Notice& block) {
    add(block.word);
    add(block.text);
  }
  void operator()(const Columns& block) {
    for (const Columns::Column& column : block.columns) read(column.blocks);
  }
  void operator()(const Table& block) {
    for (const TableColumn& column : block.columns) add(column.head);
    for (const TableRow& row : block.rows) {
      for (const Cell& cell : row.cells) std::visit(*this, cell.content);
    }
  }
  void operator()(const Words& words) { add(words); }
  void operator()(const AmountCell& cell) {
    add(plain(cell.amount.text));
    add(plain(cell.amount.spoons));
    add(plain(cell.limit));
  }
  void operator()(const PairCell& cell) { add(plain(cell.text)); }
  void operator()(const FramedCell& cell) { add(plain(cell.text)); }
  template <class Other>
  void operator()(const Other&) {}  // drawn, not read

 private:
  void add(const Words& words) {
    if (!words.empty()) text_ += tub::sheets::text_of(words) + "\n";
  }

  std::string text_;
};

}  // namespace

std::string read_aloud(const Document& label) { return Reader().read(label.blocks); }

Shelf::Shelf(PlanRequest a_request)
    : request(std::move(a_request)),
      plan(make_plan(request, tub::sheets::planning_data(), species_table())),
      more(top_ups(request, tub::sheets::planning_data(), species_table(), plan.final)),
      heading(quince_row_heading()) {}

SheetSources Shelf::sources() const {
  SheetSources result{plan, heading, tub::sheets::planning_data().products, "0.1.0"};
  result.shelf = request.shelf;
  result.top_ups = more;
  result.code = "6BF5I8%KETK3E5$F65HE1C5QW5CVA9";
  result.packages = packages;
  result.rules = rules;
  result.labels = &label_tables();
  return result;
}

std::vector<ShelfItem> every_product() {
  std::vector<ShelfItem> shelf;
  for (const Product& product : tub::sheets::planning_data().products) {
    shelf.emplace_back();
    shelf.back().product = product;
    if (product.parts.empty()) shelf.back().dose_ml_per_1000_l = 45;
  }
  return shelf;
}

Printed printed(const SheetSources& sources, const std::string& sheet, const std::string& tag,
                const Stock& stock) {
  const SheetTemplate& form = sheet_named(sheet);
  Printed result;
  for (const Document& whole : compose_pieces(sources, form, language(tag), {}).value) {
    append_fitted(sources, form, whole, stock, result);
  }
  return result;
}

void check_pages(const std::vector<Page>& pages) {
  for (const Page& page : pages) {
    CHECK(overlaps(page, test_fonts()) == std::vector<std::string>{});
    CHECK(outside(page, test_fonts(), 1) == std::vector<std::string>{});
    CHECK(tree_faults(page) == std::vector<std::string>{});
  }
}

std::string words_on(const std::vector<Page>& pages) {
  std::string all;
  for (const Page& page : pages) {
    for (const Item& item : page.items) {
      if (const auto* const run = std::get_if<TextRun>(&item)) all += run->text;
    }
  }
  return all;
}

}  // namespace tub::sheets::test
