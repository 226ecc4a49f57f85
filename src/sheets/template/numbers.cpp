// Rounding once, then digits with signs and groups.
#include "sheets/template/numbers.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdlib>

#include "base/text.h"

namespace tub::sheets {
namespace {

constexpr std::size_t grouped_from_digits = 5;

// Digits after the point that the rounded value needs.
int decimals_of(double value, Decimals decimals) {
  std::string text = fixed(value, decimals.most);
  int count = decimals.most;
  while (count > decimals.least && text.back() == '0') {
    text.pop_back();
    --count;
  }
  return count;
}

std::string grouped(const std::string& digits, const NumberStyle& style) {
  if (digits.size() < grouped_from_digits) return digits;
  std::string result;
  for (std::size_t i = 0; i < digits.size(); ++i) {
    if (i > 0 && (digits.size() - i) % 3 == 0) result += style.group;
    result += digits[i];
  }
  return result;
}

std::string signed_text(double value, int decimals, const NumberStyle& style) {
  const std::string text = fixed(std::abs(value), decimals);
  const std::size_t point = text.find('.');
  const bool is_negative = fixed(value, decimals).front() == '-';
  std::string result = is_negative ? "\u2212" : "";
  result += grouped(text.substr(0, point), style);
  if (point != std::string::npos) result += style.decimal + text.substr(point + 1);
  return result;
}

struct Fraction {
  double value;
  const char* sign;
};

constexpr std::array<Fraction, 5> fractions = {
    {{0.25, "¼"}, {1.0 / 3, "⅓"}, {0.5, "½"}, {2.0 / 3, "⅔"}, {0.75, "¾"}}};
constexpr double same_fraction = 0.005;

}  // namespace

std::string number_text(double value, Decimals decimals, const NumberStyle& style) {
  return signed_text(value, decimals_of(value, decimals), style);
}

std::string range_text(Range range, Decimals decimals, const NumberStyle& style) {
  const int digits = std::max(decimals_of(range.low, decimals), decimals_of(range.high, decimals));
  const std::string low = signed_text(range.low, digits, style);
  const std::string high = signed_text(range.high, digits, style);
  return low == high ? low : low + "–" + high;
}

std::string count_text(double count, const NumberStyle& style) {
  const double whole = std::floor(count + same_fraction);
  const double rest = count - whole;
  const std::string wholes = whole == 0 ? "" : signed_text(whole, 0, style);
  if (std::abs(rest) < same_fraction) return wholes.empty() ? "0" : wholes;
  for (const Fraction& fraction : fractions) {
    if (std::abs(rest - fraction.value) < same_fraction) return wholes + fraction.sign;
  }
  return number_text(count, {0, 2}, style);
}

Range rounded_outward(Range range, int decimals) {
  const double scale = std::pow(10.0, decimals);
  constexpr double noise = 1e-9;  // of a last digit: a value that stands on its digit stays there
  return {std::floor(range.low * scale + noise) / scale,
          std::ceil(range.high * scale - noise) / scale};
}

}  // namespace tub::sheets
