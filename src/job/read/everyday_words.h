// What people write in place of the format's own names, and what they are to write.
#pragma once

#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "base/modules.h"

namespace tub::job {

/// The words of `job/data/everyday_words.json`, folded: no capitals, one kind of blank.
struct EverydayWords {
  struct Row {
    std::string what;                ///< the name that is asked for: "product", "sanitizer"
    std::vector<std::string> said;   ///< "baking soda"
    std::vector<std::string> write;  ///< "sodium_bicarbonate"; several: the word means each of them
  };

  std::vector<std::string> not_known;      ///< "unknown", "n/a": nobody measured it
  std::vector<std::string> nothing_found;  ///< "none": perhaps measured, perhaps not
  std::vector<Row> rows;

  bool means_not_known(std::string_view text) const;
  bool means_nothing_found(std::string_view text) const;
  /// What to write for a word or a misspelling of it, of names that are usable there; nothing if it
  /// is no such word.
  std::optional<std::string> what_to_write(std::string_view what, std::string_view found,
                                           std::span<const std::string> usable) const;
};

/// Throws: Error with every fault of the text, each at its place
EverydayWords parse_everyday_words(std::string_view text, const std::string& file);

}  // namespace tub::job
