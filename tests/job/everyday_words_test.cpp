// What people write instead of the format's names, and what they are told to write.
#include "job/read/everyday_words.h"

#include <algorithm>
#include <catch2/catch.hpp>
#include <map>
#include <set>

#include "job/read/names.h"
#include "job_test.h"

using namespace tub;
using namespace tub::job;
using namespace tub::job::test;

namespace {

template <class Rows>
std::vector<std::string> ids_of(const Rows& rows) {
  std::vector<std::string> ids;
  for (const auto& row : rows) ids.push_back(row.id);
  return ids;
}

std::map<std::string, std::vector<std::string>> usable_names() {
  const PlanningData& planning = catalogue().planning;
  const auto shells = known_shells();
  return {{"product", ids_of(planning.products)},
          {"sanitizer", ids_of(planning.sanitizers)},
          {"test", ids_of(planning.test_methods)},
          {"shell", {shells.begin(), shells.end()}},
          {"use", known_uses()}};
}

std::string told(const std::string& what, const std::string& found) {
  return catalogue().words.what_to_write(what, found, usable_names().at(what)).value_or("");
}

}  // namespace

TEST_CASE("every everyday word leads to names that a job can have") {
  const auto usable = usable_names();
  for (const EverydayWords::Row& row : catalogue().words.rows) {
    REQUIRE(usable.contains(row.what));
    CHECK_FALSE(row.said.empty());
    CHECK_FALSE(row.write.empty());
    const auto& names = usable.at(row.what);
    for (const std::string& name : row.write) {
      INFO(name);
      CHECK(std::find(names.begin(), names.end(), name) != names.end());
    }
  }
}

TEST_CASE("no everyday word stands twice, and none is a name of its own") {
  std::set<std::pair<std::string, std::string>> seen;
  const auto usable = usable_names();
  for (const EverydayWords::Row& row : catalogue().words.rows) {
    for (const std::string& word : row.said) {
      INFO(row.what << ": " << word);
      CHECK(seen.insert({row.what, word}).second);
      const auto& names = usable.at(row.what);
      CHECK(std::find(names.begin(), names.end(), word) == names.end());
    }
  }
}

TEST_CASE("a word of the kitchen or the trade is answered by what to write") {
  CHECK(told("product", "baking soda") == "write sodium_bicarbonate");
  CHECK(told("product", "Baking_Soda ") == "write sodium_bicarbonate");
  CHECK(told("product", "backing soda") == "write sodium_bicarbonate");
  CHECK(told("product", "bleach") == "write sodium_hypochlorite");
  CHECK(told("shell", "wood") == "write timber");
  CHECK(told("test", "test strips") == "write strip");
}

TEST_CASE("a word that means several things lists them, and decides for none") {
  CHECK(told("sanitizer", "bromine") ==
        "write two_step_bromine or bromine_tablets: whichever it is");
  CHECK(told("product", "acid") == "write dry_acid or muriatic_acid: whichever it is");
  for (const char* const word : {"chlorine", "shock", "soda", "tablets", "bromine"}) {
    CHECK(told("product", word).find(" or ") != std::string::npos);
  }
}

TEST_CASE("pH plus and pH minus are never taken for one another") {
  CHECK(told("product", "pH+") == "write soda_ash");
  CHECK(told("product", "pH-") == "write dry_acid or muriatic_acid: whichever it is");
  CHECK(told("product", "ph up") == "write soda_ash");
  CHECK(told("product", "ph down") == "write dry_acid or muriatic_acid: whichever it is");
  // A bare "pH" is neither.
  CHECK(told("product", "pH").empty());
  CHECK(told("product", "ph u").empty());
}

TEST_CASE("what is no everyday word, or only a slip in a name, is left to the names") {
  CHECK(told("product", "soda_asch").empty());
  CHECK(told("product", "xyzzy").empty());
}

TEST_CASE("what cannot be used is not suggested") {
  CHECK(problems_of(patched(R"({ "sheets": [ "upkeep_crad" ] })")).find("upkeep_card") ==
        std::string::npos);
  CHECK(problems_of(
            patched(R"({ "sheets": [ { "sheet": "startup_card", "stock": "label_74x5" } ] })"))
            .find("label_74x52") == std::string::npos);
  const std::vector<std::string> only_one = {"muriatic_acid"};
  CHECK(catalogue().words.what_to_write("product", "acid", only_one) == "write muriatic_acid");
  CHECK_FALSE(catalogue().words.what_to_write("product", "baking soda", only_one));
}
