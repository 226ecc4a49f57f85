// UTF-8 as code points, and numbers as text, free of any locale.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace tub {

/// The code points of a text; nothing if it is not well-formed UTF-8
/// (overlong forms, surrogates and values above U+10FFFF are not).
std::optional<std::u32string> code_points(std::string_view utf8);

/// One code point as UTF-8.
std::string to_utf8(char32_t code_point);
std::string to_utf8(std::u32string_view code_points);

/// "U+00AD", for messages.
std::string code_point_name(char32_t code_point);

/// The shortest decimal text that reads back to the same double ("0.1", "1340", "1e-07").
/// REQUIRES: a finite number.
std::string shortest(double value);

/// A number rounded to so many decimals, with '.' and a plain '-'; "-0.0" is written "0.0".
std::string fixed(double value, int decimals);

/// The double that the whole text spells; nothing if it is not one.
std::optional<double> to_number(std::string_view text);

/// Parts of a text between separators, empty ones included.
std::vector<std::string> split(std::string_view text, char separator);

/// The text without white space at its ends.
std::string_view trimmed(std::string_view text);

/// A text with every occurrence of `from` replaced.
std::string replaced(std::string_view text, std::string_view from, std::string_view to);

}  // namespace tub
