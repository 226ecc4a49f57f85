#include "base/text.h"

#include <fmt/format.h>

#include <charconv>
#include <cmath>

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

bool is_blank(char c) { return c == ' ' || c == '\t' || c == '\n' || c == '\r'; }

}  // namespace

std::optional<std::u32string> code_points(std::string_view utf8) {
  std::u32string result;
  for (std::size_t i = 0; i < utf8.size();) {
    const auto lead = lead_of(static_cast<unsigned char>(utf8[i]));
    if (!lead || i + lead->length > utf8.size()) return std::nullopt;
    char32_t c = lead->bits;
    for (std::size_t k = 1; k < lead->length; ++k) {
      const auto byte = static_cast<unsigned char>(utf8[i + k]);
      if ((byte & 0xC0U) != 0x80U) return std::nullopt;
      c = (c << 6) | (byte & 0x3FU);
    }
    if (c < lead->least || !is_scalar(c)) return std::nullopt;
    result += c;
    i += lead->length;
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
