// What a country decides on a sheet: whom to call, how numbers and dates are written, spelling.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "planning/tables/provenance.h"

namespace tub::planning {

/// A row of `planning/data/countries.json`: plain values, never looked at by the planner.
struct Country {
  std::string id;                   ///< ISO 3166-1 alpha-2: "GB"
  std::string name;                 ///< in English: "United Kingdom"
  std::vector<std::string> also{};  ///< what people write instead: "UK"
  std::string emergency;            ///< the one number that is printed: "999"
  std::string decimal{};            ///< its decimal sign; empty: that of the sheet's language
  std::string variant{};            ///< of a language's words, where it has one: "gb", "us", "ch"
  Provenance source{};              ///< of the emergency number
};

/// Throws: Error with every fault of the text.
std::vector<Country> parse_countries(std::string_view text, const std::string& file);

}  // namespace tub::planning
