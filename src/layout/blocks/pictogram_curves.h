// The curves of each pictogram, on a field of 100 by 100 with y down.
#pragma once

#include <string_view>
#include <vector>

#include "document/block.h"

namespace tub::layout {

/// One filled or stroked path, in SVG's words: M, L, C, Z with absolute places.
struct Curve {
  enum class Ink { paper, mandatory, hazard, black };
  Ink ink = Ink::paper;
  double stroke = 0;  ///< width of its line; 0: filled
  std::string_view segments;
};

/// In drawing order.
std::vector<Curve> curves_of(Pictogram pictogram);

}  // namespace tub::layout
