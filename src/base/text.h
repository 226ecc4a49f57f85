// UTF-8 as code points, and numbers as text, free of any locale.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/modules.h"

namespace tub {

using Names = std::vector<std::string>;

/// The code points of a text; nothing if it is not well-formed UTF-8
/// (overlong forms, surrogates and values above U+10FFFF are not).
std::optional<std::u32string> code_points(std::string_view utf8);

/// One code point as UTF-8.
std::string to_utf8(char32_t code_point);
std::string to_utf8(std::u32string_view code_points);

/// "U+00AD", for messages.
std::string code_point_name(char32_t code_point);

/// A text as it may be shown on a terminal: whatever would steer it, turn the direction of writing
/// or not be seen (controls, escapes, bidirectional and other format characters, line separators,
/// what Unicode has not assigned) as its code point, "<U+001B>"; a byte that is no UTF-8 as "<byte
/// 9B>". Source: Unicode 15, general categories Cc, Cf, Zl, Zp, Cs, Co and Cn, by libutf8proc
std::string visible(std::string_view text);

/// The text with characters composed (Unicode Normalization Form C), so that an "é" of one code
/// point and one of two are the same. What is no UTF-8 stays as it is, and so does a text of more
/// than 1,024 bytes, which no field takes.
std::string composed(std::string_view utf8);

/// True if nothing of the text is seen: blanks of any kind (categories Zs, Zl, Zp), controls and
/// format characters, the blank of braille and the fillers of Hangul; also if it is empty.
bool is_all_blank(std::u32string_view code_points);

/// The shortest decimal text that reads back to the same double ("0.1", "1340", "1e-07").
/// REQUIRES: a finite number.
std::string shortest(double value);

/// A number rounded to so many decimals, with '.' and a plain '-'; "-0.0" is written "0.0".
std::string fixed(double value, int decimals);

/// A count with its thousands apart, as the program's messages write it: "19,990".
std::string in_thousands(std::size_t count);

/// The text as far as a message shows it: whole up to 60 bytes, else its beginning and "…".
std::string shortened(std::string_view text);

/// The double that the whole text spells; nothing if it is not one.
std::optional<double> to_number(std::string_view text);

/// Parts of a text between separators, empty ones included.
std::vector<std::string> split(std::string_view text, char separator);

/// The text without white space at its ends.
std::string_view trimmed(std::string_view text);

/// A text with every occurrence of `from` replaced.
std::string replaced(std::string_view text, std::string_view from, std::string_view to);

}  // namespace tub
