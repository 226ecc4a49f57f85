// The hazard sheet: every pair once, first aid as the classes ask, any shelf on as many pages as it
// needs.
#include <algorithm>
#include <catch2/catch.hpp>
#include <set>

#include "../labels/label_data.h"
#include "../layout/layout_test.h"
#include "../planning/random_job.h"
#include "../planning/sample_job.h"
#include "base/text.h"
#include "fixture.h"
#include "label_shelf.h"
#include "sheets/compose.h"

namespace tub::sheets::test {
namespace {

Document hazard_sheet(const Shelf& shelf, const std::string& tag = "en") {
  return compose_pieces(shelf.sources(), sheet_named("hazard_sheet"), language(tag), {})
      .value.at(0);
}

Shelf shelf_of(const std::vector<const char*>& products) {
  PlanRequest request = sample_request();
  request.shelf.clear();
  for (const char* const product : products) request.shelf.push_back(shelf_item(product));
  return Shelf(request);
}

/// How many pairs a sheet shows, and how many of them are dangers.
struct PairCount {
  std::size_t all = 0;
  std::size_t dangers = 0;
};

PairCount pairs_of(const Document& sheet) {
  PairCount count;
  for (const Block& block : sheet.blocks) {
    const auto* const table = std::get_if<Table>(&block.content);
    if (table == nullptr) continue;
    for (const TableRow& row : table->rows) {
      for (const Cell& cell : row.cells) {
        const auto* const pair = std::get_if<PairCell>(&cell.content);
        if (pair == nullptr) continue;
        ++count.all;
        if (pair->severity != PairCell::Severity::apart) ++count.dangers;
      }
    }
  }
  return count;
}

void check_pairs(const Shelf& shelf) {
  std::set<std::pair<std::string, std::string>> pairs;
  for (const HazardPair& pair : shelf.plan.hazards) {
    pairs.insert(std::minmax(pair.first, pair.second));
  }
  const PairCount found = pairs_of(hazard_sheet(shelf));
  const std::size_t products = shelf.request.shelf.size();
  CHECK(found.dangers == pairs.size());
  CHECK(found.all == products * (products - 1) / 2);
}

bool says(const Document& sheet, const std::string& text) {
  return read_aloud(sheet).find(text) != std::string::npos;
}

}  // namespace

TEST_CASE("the hazard sheet names each pair of the shelf once, and each dangerous one as such") {
  for (std::uint64_t seed = 1; seed <= 10; ++seed) {
    INFO("seed " << seed);
    check_pairs(Shelf(random_request(seed)));
  }
}

TEST_CASE("a shelf of every product there is has its hazard sheet, in every language") {
  PlanRequest request = sample_request();
  request.shelf = every_product();
  const Shelf shelf(request);
  check_pairs(shelf);
  for (const char* const tag : {"en", "es", "fr", "de"}) {
    for (const char* const stock : {"a4", "letter"}) {
      INFO(tag << " " << stock);
      const Printed sheet = printed(shelf.sources(), "hazard_sheet", tag, test_stock(stock));
      check_pages(sheet.pages);
      CHECK(sheet.turn == 0);  // each column keeps its product's name
      CHECK(sheet.pages.size() >= 2);
      CHECK(sheet.pages.size() <= 5);
      const std::string gas = language(tag).text("hazards.gas_word");
      for (const Page& page : sheet.pages) {
        CHECK(words_on({page}).find(gas) != std::string::npos);
      }
    }
  }
}

TEST_CASE("hazard sheets of one product up to all of them are printed") {
  const std::vector<ShelfItem> all = every_product();
  for (std::size_t count = 1; count <= all.size(); ++count) {
    INFO(count << " products");
    PlanRequest request = sample_request();
    request.shelf.assign(all.begin(), all.begin() + static_cast<std::ptrdiff_t>(count));
    const Shelf shelf(request);
    check_pages(printed(shelf.sources(), "hazard_sheet", "de", test_stock("letter")).pages);
  }
}

// Reference: CLP Annex I, tables 3.2.5 (Skin Corr. 1: H314) and 3.3.5 (Eye Dam. 1: H318) assign
// P310; tables of Acute Tox. 4, Eye Irrit. 2 and STOT SE 3 do not. Table numbers from memory.
TEST_CASE("what burns skin or eyes sends to a poison centre at once, by its name") {
  const Shelf shelf = shelf_of(
      {"sodium_bicarbonate", "soda_ash", "dry_acid", "muriatic_acid", "dichlor_dihydrate"});
  CHECK(says(hazard_sheet(shelf), "Dry acid, muriatic acid: Immediately call a POISON CENTER."));
  CHECK(says(hazard_sheet(shelf, "de"), "Sofort GIFTINFORMATIONSZENTRUM anrufen."));
  CHECK(says(hazard_sheet(shelf, "fr"), "Appeler immédiatement un CENTRE ANTIPOISON."));
  CHECK(says(hazard_sheet(shelf, "es"), "Llamar inmediatamente a un CENTRO DE TOXICOLOGÍA."));
  CHECK(says(hazard_sheet(shelf), "Dichlor granules: Call a POISON CENTER if you feel unwell."));
}

// CLP Annex IV spells P310 with "center" and P312 with "centre" (from memory).
TEST_CASE("a poison centre is spelled one way on a hazard sheet, the country's") {
  const Shelf shelf = shelf_of({"dry_acid", "dichlor_dihydrate"});
  const auto sheet_in = [&](const char* const variant) {
    Country country;
    country.variant = variant;
    return compose_pieces(shelf.sources(), sheet_named("hazard_sheet"), english().in(country), {})
        .value.at(0);
  };
  CHECK(says(sheet_in("us"), "POISON CENTER"));
  CHECK_FALSE(says(sheet_in("us"), "POISON CENTRE"));
  CHECK(says(sheet_in("gb"), "POISON CENTRE"));
  CHECK_FALSE(says(sheet_in("gb"), "POISON CENTER"));
}

TEST_CASE("a shelf that only irritates sends nobody to a poison centre at once") {
  const Shelf shelf = shelf_of({"sodium_bicarbonate", "soda_ash", "calcium_chloride_dihydrate"});
  CHECK_FALSE(says(hazard_sheet(shelf), "Immediately call"));
}

TEST_CASE("what may harm an unborn child sends to a doctor as well as what burns") {
  const Shelf shelf = shelf_of({"dry_acid", "borax"});
  CHECK(says(hazard_sheet(shelf), "Dry acid: Immediately call"));
  CHECK(says(hazard_sheet(shelf), "Borax: IF exposed or concerned: Get medical advice."));
}

TEST_CASE("a package's own statements decide whether a poison centre is called at once") {
  Shelf shelf = shelf_of({"soda_ash"});
  shelf.request.shelf[0].product.hazard_statements = {"H301"};  // toxic if swallowed
  CHECK(says(hazard_sheet(shelf), "IF SWALLOWED: Immediately call a POISON CENTER."));
  CHECK(says(hazard_sheet(shelf), "Soda ash: Immediately call a POISON CENTER."));
}

TEST_CASE("the hazard sheet of a tub without a name asks where it stands with a line") {
  Shelf shelf = shelf_of({"soda_ash", "dry_acid"});
  shelf.heading.vessel_name.clear();
  for (const char* const tag : {"en", "es", "fr", "de"}) {
    INFO(tag);
    const Document sheet = hazard_sheet(shelf, tag);
    CHECK(sheet.title.find("1340") != std::string::npos);
    CHECK(says(sheet, tub::sheets::text_of(language(tag).words("hazards.say_where_line"))));
  }
  CHECK(hazard_sheet(shelf).title == "Hazard sheet: Tub of 1340\u202FL");
}

}  // namespace tub::sheets::test
