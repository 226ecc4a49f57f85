// The ways to keep a tub clean: what shows each, and the products that it takes.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "planning/reading.h"
#include "planning/tables/provenance.h"

namespace tub::planning {

/// A row of `planning/data/sanitizers.json`. Products are identifiers, first choice first.
struct SanitizerRow {
  std::string id;
  std::string about;
  Reading reading = Reading::free_chlorine;  ///< that shows it
  std::vector<std::string> products;         ///< that make the reading
  std::vector<std::string> bank;     ///< bromide that has to be there first; none: none needed
  std::vector<std::string> then;     ///< that take over when cyanuric acid is at its limit
  std::vector<std::string> instead;  ///< where cyanuric acid leaves no room for what brings more
  std::vector<std::string> at_once;  ///< with the bank, the first of it where `products` take days
  Provenance source;

  /// Every product that the row names, each once.
  std::vector<std::string> all_products() const;
};

/// Throws: Error with every fault of the text
std::vector<SanitizerRow> parse_sanitizers(std::string_view text, const std::string& file);

/// Throws: Error if there is no such row
const SanitizerRow& sanitizer_row(const std::vector<SanitizerRow>& rows, std::string_view kind);

}  // namespace tub::planning
