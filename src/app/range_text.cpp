#include "app/range_text.h"

#include <fmt/format.h>

#include <cmath>

#include "app/paragraph.h"
#include "sheets/template/numbers.h"

namespace tub::app {
namespace {

int decimals_of(Reading reading, double value) {
  constexpr double shown_whole_from = 10;
  return reading == Reading::ph || std::abs(value) < shown_whole_from ? 1 : 0;
}

std::string low_text(double value, int decimals) {
  return tidy(rounded_outward({value, value}, decimals).low, decimals);
}

std::string high_text(double value, int decimals) {
  return tidy(rounded_outward({value, value}, decimals).high, decimals);
}

}  // namespace

std::string reading_text(Reading reading, double value) {
  return tidy(value, decimals_of(reading, value));
}

std::string range_text(Reading reading, Range range) {
  return fmt::format("{} to {}", low_text(range.low, decimals_of(reading, range.low)),
                     high_text(range.high, decimals_of(reading, range.high)));
}

std::string range_text(Range range, int most_decimals) {
  return fmt::format("{} to {}", low_text(range.low, most_decimals),
                     high_text(range.high, most_decimals));
}

std::string at_most_text(Reading reading, double value) {
  return high_text(value, decimals_of(reading, value));
}

}  // namespace tub::app
