#include "base/text.h"

#include <fmt/format.h>
#include <utf8proc.h>

#include <algorithm>
#include <charconv>
#include <cmath>
#include <cstdlib>
#include <memory>
#include <new>

namespace tub {
namespace {

struct Lead {
  std::size_t length;
  char32_t bits;
  char32_t least;  // smallest code point that needs this length
};

std::optional<Lead> lead_of(unsigned char byte) {
  if (byte < 0x80) return Lead{1, byte, 0};
  if (byte >= 0xC2 && byte < 0xE0) return Lead{2, byte & 0x1FU, 0x80};
  if (byte >= 0xE0 && byte < 0xF0) return Lead{3, byte & 0x0FU, 0x800};
  if (byte >= 0xF0 && byte < 0xF5) return Lead{4, byte & 0x07U, 0x10000};
  return std::nullopt;
}

bool is_scalar(char32_t c) { return c <= 0x10FFFF && (c < 0xD800 || c > 0xDFFF); }

// One code point at the start of a text, and how many bytes it takes; nothing if there is none.
struct Step {
  char32_t code_point;
  std::size_t length;
};

std::optional<Step> first_step(std::string_view utf8) {
  const auto lead = lead_of(static_cast<unsigned char>(utf8.front()));
  if (!lead || lead->length > utf8.size()) return std::nullopt;
  char32_t c = lead->bits;
  for (std::size_t k = 1; k < lead->length; ++k) {
    const auto byte = static_cast<unsigned char>(utf8[k]);
    if ((byte & 0xC0U) != 0x80U) return std::nullopt;
    c = (c << 6) | (byte & 0x3FU);
  }
  if (c < lead->least || !is_scalar(c)) return std::nullopt;
  return Step{c, lead->length};
}

utf8proc_category_t category_of(char32_t c) {
  return utf8proc_category(static_cast<utf8proc_int32_t>(c));
}

bool is_seen(char32_t c) {
  switch (category_of(c)) {
    case UTF8PROC_CATEGORY_CC:
    case UTF8PROC_CATEGORY_CF:
    case UTF8PROC_CATEGORY_ZL:
    case UTF8PROC_CATEGORY_ZP:
    case UTF8PROC_CATEGORY_CS:
    case UTF8PROC_CATEGORY_CO:
    case UTF8PROC_CATEGORY_CN:
      return false;
    default:
      return true;
  }
}

// Letters by their category, of which nothing is seen: U+2800 and the fillers of Hangul.
bool is_blank_sign(char32_t c) {
  return c == 0x2800 || c == 0x115F || c == 0x1160 || c == 0x3164 || c == 0xFFA0;
}

bool is_blank(char c) { return c == ' ' || c == '\t' || c == '\n' || c == '\r'; }

}  // namespace

std::optional<std::u32string> code_points(std::string_view utf8) {
  std::u32string result;
  while (!utf8.empty()) {
    const auto step = first_step(utf8);
    if (!step) return std::nullopt;
    result += step->code_point;
    utf8.remove_prefix(step->length);
  }
  return result;
}

std::string to_utf8(char32_t c) {
  const auto tail = [&](int shift) { return static_cast<char>(0x80 | ((c >> shift) & 0x3F)); };
  if (c < 0x80) return {static_cast<char>(c)};
  if (c < 0x800) return {static_cast<char>(0xC0 | (c >> 6)), tail(0)};
  if (c < 0x10000) return {static_cast<char>(0xE0 | (c >> 12)), tail(6), tail(0)};
  return {static_cast<char>(0xF0 | (c >> 18)), tail(12), tail(6), tail(0)};
}

std::string to_utf8(std::u32string_view code_points) {
  std::string result;
  for (const char32_t c : code_points) result += to_utf8(c);
  return result;
}

std::string code_point_name(char32_t code_point) {
  return fmt::format("U+{:04X}", static_cast<std::uint32_t>(code_point));
}

std::string visible(std::string_view text) {
  std::string result;
  while (!text.empty()) {
    const auto step = first_step(text);
    const std::size_t length = step ? step->length : 1;
    if (!step) {
      result += fmt::format("<byte {:02X}>", static_cast<unsigned char>(text.front()));
    } else if (is_seen(step->code_point)) {
      result += text.substr(0, length);
    } else {
      result += "<" + code_point_name(step->code_point) + ">";
    }
    text.remove_prefix(length);
  }
  return result;
}

std::string composed(std::string_view utf8) {
  const bool is_ascii = std::all_of(utf8.begin(), utf8.end(),
                                    [](char c) { return static_cast<unsigned char>(c) < 0x80; });
  // Sorting a long row of accents takes as long as their number squared.
  constexpr std::size_t longest = 1024;
  if (is_ascii || utf8.size() > longest) return std::string(utf8);
  utf8proc_uint8_t* bytes = nullptr;
  const utf8proc_ssize_t size =
      utf8proc_map(reinterpret_cast<const utf8proc_uint8_t*>(utf8.data()),
                   static_cast<utf8proc_ssize_t>(utf8.size()), &bytes,
                   static_cast<utf8proc_option_t>(UTF8PROC_STABLE | UTF8PROC_COMPOSE));
  const std::unique_ptr<utf8proc_uint8_t, decltype(&std::free)> owner(bytes, &std::free);
  if (size == UTF8PROC_ERROR_NOMEM) throw std::bad_alloc();
  if (size < 0) return std::string(utf8);
  return {reinterpret_cast<const char*>(bytes), static_cast<std::size_t>(size)};
}

bool is_all_blank(std::u32string_view code_points) {
  return std::all_of(code_points.begin(), code_points.end(), [](char32_t c) {
    return !is_seen(c) || category_of(c) == UTF8PROC_CATEGORY_ZS || is_blank_sign(c);
  });
}

std::string shortest(double value) {
  const std::string text = fmt::format("{}", value);
  const bool whole = text.size() > 2 && text.substr(text.size() - 2) == ".0";
  return whole ? text.substr(0, text.size() - 2) : text;
}

std::string fixed(double value, int decimals) {
  const std::string text = fmt::format("{:.{}f}", value, decimals);
  const bool is_zero = text.find_first_not_of("-0.") == std::string::npos;
  return is_zero && text.front() == '-' ? text.substr(1) : text;
}

std::string in_thousands(std::size_t count) {
  std::string text = std::to_string(count);
  for (std::size_t from_end = 3; from_end < text.size(); from_end += 4) {
    text.insert(text.size() - from_end, ",");
  }
  return text;
}

std::string shortened(std::string_view text) {
  constexpr std::size_t longest = 60;
  if (text.size() <= longest) return std::string(text);
  std::size_t end = longest - 3;
  while (end > 0 && (static_cast<unsigned char>(text[end]) & 0xC0U) == 0x80U) --end;
  return std::string(text.substr(0, end)) + "…";
}

std::optional<double> to_number(std::string_view text) {
  double value = 0;
  const char* const end = text.data() + text.size();
  const auto [stop, error] = std::from_chars(text.data(), end, value);
  if (error != std::errc() || stop != end || !std::isfinite(value)) return std::nullopt;
  return value;
}

std::vector<std::string> split(std::string_view text, char separator) {
  std::vector<std::string> parts(1);
  for (const char c : text) {
    if (c == separator) {
      parts.emplace_back();
    } else {
      parts.back() += c;
    }
  }
  return parts;
}

std::string_view trimmed(std::string_view text) {
  while (!text.empty() && is_blank(text.front())) text.remove_prefix(1);
  while (!text.empty() && is_blank(text.back())) text.remove_suffix(1);
  return text;
}

std::string replaced(std::string_view text, std::string_view from, std::string_view to) {
  std::string result;
  std::size_t start = 0;
  for (std::size_t at = text.find(from); at != std::string_view::npos;
       at = text.find(from, start)) {
    result += text.substr(start, at - start);
    result += to;
    start = at + from.size();
  }
  result += text.substr(start);
  return result;
}

}  // namespace tub
