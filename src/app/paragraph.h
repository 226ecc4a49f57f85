// Plain text in columns: paragraphs folded to a width, figures as people read them.
#pragma once

#include <string>
#include <string_view>

namespace tub::app {

/// The text broken at blanks into lines of at most `width` columns, each ended by a newline; the
/// first starts with `head`, the others are set in below what follows it.
std::string paragraph(std::string_view head, std::string_view text, std::size_t width);

/// How many columns a text takes: its code points.
std::size_t columns_of(std::string_view text);

/// The text and blanks up to so many columns.
std::string padded(std::string_view text, std::size_t columns);

/// A number with at most so many decimals, none that are zero at its end: "7.5", "62".
std::string tidy(double value, int most_decimals);

}  // namespace tub::app
