#include "planning/tables/country.h"

#include <algorithm>
#include <cctype>

#include "base/text.h"
#include "planning/tables/data_row.h"

namespace tub::planning {
namespace {

const Names country_fields = {"id", "name", "also", "emergency", "decimal", "variant", "source"};

bool are_all(std::string_view text, int (*is_such)(int)) {
  return std::all_of(text.begin(), text.end(), [&](char character) {
    return is_such(static_cast<unsigned char>(character)) != 0;
  });
}

void check(const Node& row, const Country& country) {
  if (country.id.size() != 2 || !are_all(country.id, std::isupper)) {
    row.problem("a country's id is two capital letters", "take its code of ISO 3166-1 alpha-2");
  }
  if (country.emergency.size() != 3 || !are_all(country.emergency, std::isdigit)) {
    row.problem("an emergency number is three digits", "name the one that is called first");
  }
}

Country read_country(const Node& row) {
  row.allow_only(country_fields);
  Country country;
  country.id = data_row::text(row, "id");
  country.name = data_row::text(row, "name");
  country.emergency = data_row::text(row, "emergency");
  if (const auto also = row.find("also")) {
    for (const Node& item : also->items()) country.also.push_back(item.text().value_or(""));
  }
  if (row.find("decimal")) country.decimal = data_row::name(row, "decimal", Names{".", ","});
  if (row.find("variant")) country.variant = data_row::text(row, "variant");
  if (const auto source = row.require("source")) {
    if (const auto read = read_provenance(*source)) country.source = *read;
  }
  check(row, country);
  return country;
}

}  // namespace

std::vector<Country> parse_countries(std::string_view text, const std::string& file) {
  return data_row::parse_list(text, file, "countries", read_country);
}

}  // namespace tub::planning
