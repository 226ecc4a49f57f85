// Names that the job format knows, whether this version can use them or not.
#pragma once

#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace tub {

/// A way to keep a tub clean, and the products that it takes.
struct SanitizerEntry {
  std::string_view id;
  std::string_view about;
  std::vector<std::string_view> products;  ///< any of each entry's products will do
  bool is_in_this_version = false;
};

std::span<const SanitizerEntry> sanitizer_entries();

/// Null if there is none of that name.
const SanitizerEntry* sanitizer_entry(std::string_view id);

/// The sheet that holds labels of several kinds.
inline constexpr std::string_view label_sheet = "label_sheet";

std::vector<std::string> known_products();
std::vector<std::string> known_sheets();
/// Those of the sheets that are labels.
std::vector<std::string> known_labels();
std::vector<std::string> known_stocks();
std::vector<std::string> known_languages();
std::vector<std::string> known_uses();
std::vector<std::string> known_methods();
std::vector<std::string> known_measures();

}  // namespace tub
