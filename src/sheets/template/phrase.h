// A text of a template or a language file: words with inline marks and {placeholders}.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "document/words.h"

namespace tub::sheets {

/// A stretch of a phrase in one weight: text as it stands, a placeholder's name, a writing line.
struct PhrasePart {
  enum class Kind { text, placeholder, line };
  enum class Weight { regular, bold, small, band };
  Kind kind = Kind::text;
  Weight weight = Weight::regular;
  std::string text;     ///< the text, or the placeholder's name
  double least_mm = 0;  ///< of a writing line

  friend bool operator==(const PhrasePart&, const PhrasePart&) = default;
};

/// A phrase, and what is wrong with its marks (empty: nothing).
struct Phrase {
  std::vector<PhrasePart> parts;
  std::string fault;
  std::string help;
};

/// Reads `*bold*`, `~small~`, `[target]`, `{placeholder}` and `____` (a writing line, 2 mm for
/// each underscore, three at least); a backslash before a mark prints the mark. Marks do not nest.
Phrase read_phrase(std::string_view text);

/// The names of all placeholders, each once, in the order of the text.
std::vector<std::string> placeholders_of(const Phrase& phrase);

/// Adds a part in that weight to words, and joins neighbours of one kind.
void append(Words& words, PhrasePart::Weight weight, std::string text);

/// Adds words to words; in a weight other than regular their plain parts take that weight.
void append(Words& words, PhrasePart::Weight weight, const Words& added);

}  // namespace tub::sheets
