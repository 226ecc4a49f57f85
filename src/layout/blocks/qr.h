// Square codes (QR, ISO/IEC 18004): a text as modules, and modules as one path.
#pragma once

#include <cstddef>
#include <string_view>
#include <vector>

#include "layout/pages/page.h"

namespace tub::layout {

/// Modules left white on each side of a code. Source: ISO/IEC 18004, quiet zone
inline constexpr int quiet_modules = 4;

/// The side of a module in points: four dots at 203 dots per inch, six at 300.
inline constexpr double code_module = 0.5 * 72 / 25.4;

/// The most modules along the side of a code that fits, with its quiet zone, in such a square.
int modules_within(double side_mm);

/// The modules of a square code, without its quiet zone.
struct QrCode {
  int modules = 0;         ///< along one side: 21, 25, 29 …
  std::vector<bool> dark;  ///< row by row from the upper left

  bool is_dark(int column, int row) const {
    return dark.at(static_cast<std::size_t>(row) * static_cast<std::size_t>(modules) +
                   static_cast<std::size_t>(column));
  }
};

/// The smallest code that holds the text in the alphanumeric mode, with error correction of level M
/// (about 15 % of the code words may be damaged).
///
/// text:   digits, capitals A to Z, space and $ % * + - . / :, at least one
/// Throws: Error naming another character and its place, or if the text is longer than the largest
///         code holds
QrCode qr_code(std::string_view text);

/// How many such characters a code with so many modules along its side holds at level M; 0 if there
/// is no code of that size.
///
/// Checked: against the encoder for every size from 21 to 177
std::size_t qr_capacity(int modules);

/// The dark modules as one filled path, drawn on whole dots where there are dots.
///
/// corner: the upper left of the modules, the quiet zone not counted
/// module: the side of a module in points
Path qr_path(const QrCode& code, Point corner, double module);

}  // namespace tub::layout
