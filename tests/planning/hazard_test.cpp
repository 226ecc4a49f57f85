// Dangerous pairs: every published pair of a shelf is found, the worst first.
#include "planning/tables/hazard.h"

#include <algorithm>
#include <catch2/catch.hpp>

#include "base/text.h"
#include "data_files.h"
#include "project_text.h"

namespace {

using tub::planning::HazardPair;
using tub::planning::HazardRule;
using tub::planning::Product;
using tub::planning::ShelfItem;

std::vector<HazardRule> rules() {
  return tub::planning::parse_hazard_rules(tub::project_text("src/planning/data/hazards.json"),
                                           "hazards.json");
}

std::vector<Product> products() {
  return tub::planning::parse_products(tub::project_text("src/planning/data/products.json"),
                                       "products.json");
}

std::vector<HazardPair> pairs_of(const std::vector<std::string>& ids) {
  std::vector<ShelfItem> shelf;
  for (const Product& product : products()) {
    if (std::count(ids.begin(), ids.end(), product.id) > 0) shelf.push_back({product, {}, {}});
  }
  REQUIRE(shelf.size() == ids.size());
  return tub::planning::dangerous_pairs(shelf, rules());
}

bool has(const std::vector<HazardPair>& pairs, const std::string& a, const std::string& b,
         const std::string& code) {
  return std::any_of(pairs.begin(), pairs.end(), [&](const HazardPair& pair) {
    const bool meant =
        (pair.first == a && pair.second == b) || (pair.first == b && pair.second == a);
    return meant && pair.code == code;
  });
}

}  // namespace

TEST_CASE("rules name groups and products that there are") {
  std::vector<std::string> known(tub::planning::known_groups().begin(),
                                 tub::planning::known_groups().end());
  for (const Product& product : products()) known.push_back(product.id);
  for (const HazardRule& rule : rules()) {
    INFO(rule.first << " and " << rule.second);
    CHECK(std::count(known.begin(), known.end(), rule.first) >= 1);
    CHECK(std::count(known.begin(), known.end(), rule.second) >= 1);
    CHECK_FALSE(rule.source.text.empty());
  }
}

TEST_CASE("any acid with any chlorine makes chlorine gas") {
  // Source: ATSDR Medical Management Guidelines; EUH031 in CLP Annex VI.
  for (const std::string acid : {"dry_acid", "muriatic_acid"}) {
    for (const std::string chlorine : {"dichlor_dihydrate", "dichlor_anhydrous", "trichlor",
                                       "sodium_hypochlorite", "calcium_hypochlorite"}) {
      const auto pairs = pairs_of({acid, chlorine});
      INFO(acid << " and " << chlorine);
      CHECK(has(pairs, acid, chlorine, "chlorine_gas"));
      CHECK(pairs.front().severity == "deadly");
    }
  }
}

TEST_CASE("four kinds of chlorine never meet each other") {
  // Source: Chautauqua County (NY) Office of Emergency Services (2021); Washington DOH 333-276.
  const std::vector<std::string> kinds = {"dichlor_dihydrate", "trichlor", "sodium_hypochlorite",
                                          "calcium_hypochlorite"};
  for (const std::string& a : kinds) {
    for (const std::string& b : kinds) {
      if (a < b) CHECK(pairs_of({a, b}).front().severity == "deadly");
    }
  }
  CHECK(has(pairs_of({"dichlor_dihydrate", "calcium_hypochlorite"}), "dichlor_dihydrate",
            "calcium_hypochlorite", "explosion"));
  CHECK(pairs_of({"dichlor_dihydrate", "dichlor_anhydrous"}).empty());
}

TEST_CASE("the pairs of a usual shelf come the worst first, each with each code once") {
  const auto pairs = pairs_of({"sodium_bicarbonate", "dry_acid", "soda_ash", "dichlor_dihydrate",
                               "calcium_chloride_dihydrate", "sequestrant"});
  CHECK(has(pairs, "dry_acid", "dichlor_dihydrate", "chlorine_gas"));
  CHECK(has(pairs, "dry_acid", "soda_ash", "spits"));
  CHECK(has(pairs, "dichlor_dihydrate", "calcium_chloride_dihydrate", "violent_reaction"));
  CHECK(pairs.front().severity == "deadly");
  CHECK(pairs.back().severity == "spoils");
  for (std::size_t i = 0; i < pairs.size(); ++i) {
    for (std::size_t j = i + 1; j < pairs.size(); ++j) {
      CHECK_FALSE((pairs[i].code == pairs[j].code && pairs[i].first == pairs[j].first &&
                   pairs[i].second == pairs[j].second));
    }
  }
}

TEST_CASE("calcium chloride waits for two hours after a carbonate, and says that this is assumed") {
  const auto pairs = pairs_of({"sodium_bicarbonate", "calcium_chloride_anhydrous"});
  REQUIRE(pairs.size() == 1);
  CHECK(pairs.front().code == "clouds");
  CHECK(pairs.front().hours_apart == 2);
  for (const HazardRule& rule : rules()) {
    if (rule.hours_apart > 0) CHECK(rule.hours_source->is_assumption());
  }
}

TEST_CASE("every stated danger between two products is found, with what happens") {
  // Source: tests/reference/planning/dangerous_pairs.csv.
  for (const auto& row : tub::planning::testing::reference_rows("dangerous_pairs.csv")) {
    for (const std::string& a : tub::split(row.at("a"), ' ')) {
      for (const std::string& b : tub::split(row.at("b"), ' ')) {
        INFO(row.at("fact") << ": " << a << " and " << b);
        CHECK(has(pairs_of({a, b}), a, b, row.at("code")));
      }
    }
  }
}

TEST_CASE("each product's protection is what is stated, and no mask where it holds nothing back") {
  // Source: tests/reference/planning/protection.csv.
  const std::vector<Product> all = products();
  for (const auto& row : tub::planning::testing::reference_rows("protection.csv")) {
    INFO(row.at("product"));
    const auto product = std::find_if(
        all.begin(), all.end(), [&](const Product& one) { return one.id == row.at("product"); });
    REQUIRE(product != all.end());
    const auto count = [](const std::vector<std::string>& list, const std::string& name) {
      return std::count(list.begin(), list.end(), name);
    };
    for (const std::string& sign : tub::split(row.at("must"), ' ')) {
      CHECK(count(product->protection, sign) == 1);
    }
    if (!row.at("must_not").empty()) CHECK(count(product->protection, row.at("must_not")) == 0);
    if (row.at("handling").empty()) continue;
    for (const std::string& how : tub::split(row.at("handling"), ' ')) {
      CHECK(count(product->handling, how) == 1);
    }
  }
}
