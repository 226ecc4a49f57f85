// Numbers and dates as a language prints them.
#pragma once

#include <string>

#include "base/interval.h"

namespace tub::sheets {

/// How a language writes numbers.
struct NumberStyle {
  std::string decimal = ".";
  std::string group = "\u202F";  ///< between groups of three digits, from five digits on
  double singular_up_to = 1;     ///< larger counts take the plural
};

/// How many digits stand after the decimal sign: no more than `most`, and zeros up to `least`.
struct Decimals {
  int least = 0;
  int most = 0;
};

/// "7.4", "12 500", "−3": rounded, with a real minus and groups of three from five digits on.
/// REQUIRES: a finite number
std::string number_text(double value, Decimals decimals, const NumberStyle& style);

/// "7.4–7.6": both ends with the decimals of the longer one; one number where both print alike.
std::string range_text(Range range, Decimals decimals, const NumberStyle& style);

/// A count of spoons: "1½", "6", "2⅓"; another share than ¼ ⅓ ½ ⅔ ¾ as a decimal.
std::string count_text(double count, const NumberStyle& style);

/// The range as it prints: its ends rounded away from each other to so many decimals.
Range rounded_outward(Range range, int decimals);

}  // namespace tub::sheets
