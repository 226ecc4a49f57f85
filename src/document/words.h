// Words as they stand in a line: the inline parts that every block is filled with.
#pragma once

#include <string>
#include <string_view>
#include <utility>
#include <variant>
#include <vector>

#include "base/modules.h"

namespace tub::document {

// All texts are UTF-8, formatted for one language: thin no-break spaces (U+202F) before units, real
// minus and multiplication signs, en dashes in ranges. A soft hyphen (U+00AD) allows a break inside
// a word; an ordinary space and a hyphen allow one too; nothing else does, save U+200B (which
// prints nothing). Line feeds are not allowed.

/// Regular weight.
struct Plain {
  std::string text;
};

/// The word that matters.
struct Bold {
  std::string text;
};

/// Regular, in the size of units and column heads.
struct Small {
  std::string text;
};

/// A target chip: grey between two banks, bold, never broken over lines. Targets and the gate only.
struct Band {
  std::string text;
};

/// A quantity in the amount's size (20 pt on a card) with its spoons small beside it.
struct Amount {
  std::string text;    ///< "90 g"
  std::string spoons;  ///< "6 level tablespoons"; may be empty
};

/// A line to write on.
struct Fill {
  double least_mm = 32;  ///< its least width
  std::string alt;       ///< what to write; empty: `Document::alternatives.fill`
};

/// The warning triangle.
struct Triangle {
  std::string alt;  ///< empty: `Document::alternatives.triangle`
};

using Inline = std::variant<Plain, Bold, Small, Band, Amount, Fill, Triangle>;

/// Inline parts in a row. Nothing is put between them: a space between two parts stands in one of
/// them.
struct Words {
  std::vector<Inline> parts;
  std::string language;  ///< a BCP 47 tag where it differs from the document's; else empty

  bool empty() const { return parts.empty(); }
};

/// A text in regular weight; no parts if it is empty.
inline Words plain(std::string text) {
  Words words;
  if (!text.empty()) words.parts.emplace_back(Plain{std::move(text)});
  return words;
}

/// The inline parts' texts, one after the other; marks that are drawn leave nothing.
std::string text_of(const Words& words);

}  // namespace tub::document
