// Countries: whom to call.
#include "planning/tables/country.h"

#include <catch2/catch.hpp>
#include <set>
#include <sstream>

#include "data_files.h"
#include "project_text.h"

namespace {

std::vector<tub::planning::Country> all_countries() {
  return tub::planning::parse_countries(tub::project_text("src/planning/data/countries.json"),
                                        "countries.json");
}

std::string emergency_number_of(const std::string& id) {
  for (const tub::planning::Country& country : all_countries()) {
    if (country.id == id) return country.emergency;
  }
  return "";
}

}  // namespace

TEST_CASE("a country's number is one that reaches its emergency services") {
  std::istringstream rows(tub::project_text("tests/reference/planning/emergency_numbers.csv"));
  int compared = 0;
  for (std::string row; std::getline(rows, row);) {
    if (row.empty() || row.front() == '#') continue;
    CAPTURE(row);
    const std::string numbers = " " + row.substr(3) + " ";
    const std::string ours = emergency_number_of(row.substr(0, 2));
    REQUIRE_FALSE(ours.empty());
    CHECK(numbers.find(" " + ours + " ") != std::string::npos);
    ++compared;
  }
  CHECK(compared == 11);
}

TEST_CASE("the whole European Union calls 112") {
  // Source: Directive (EU) 2018/1972, article 109; the members of 2020 on, from memory.
  for (const char* const id :
       {"AT", "BE", "BG", "HR", "CY", "CZ", "DK", "EE", "FI", "FR", "DE", "GR", "HU", "IE",
        "IT", "LV", "LT", "LU", "MT", "NL", "PL", "PT", "RO", "SK", "SI", "ES", "SE"}) {
    CAPTURE(id);
    CHECK(emergency_number_of(id) == "112");
  }
}

TEST_CASE("no two countries are meant by one name") {
  std::set<std::string> names;
  for (const tub::planning::Country& country : all_countries()) {
    CHECK(names.insert(country.id).second);
    CHECK(names.insert(country.name).second);
    for (const std::string& also : country.also) CHECK(names.insert(also).second);
    CHECK_FALSE(country.source.text.empty());
  }
}

TEST_CASE("a country without a number of three digits is refused at its place") {
  const std::string bad = R"({ "countries": [ { "id": "gb", "name": "x", "emergency": "99",
      "source": { "from_memory": "x" } } ] })";
  try {
    tub::planning::parse_countries(bad, "countries.json");
    FAIL("nothing was refused");
  } catch (const tub::Error& error) {
    const std::string said = error.what();
    CHECK(said.find("a country's id is two capital letters") != std::string::npos);
    CHECK(said.find("an emergency number is three digits") != std::string::npos);
  }
}
