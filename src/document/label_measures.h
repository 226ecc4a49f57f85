// What a finished label measures: plain figures that rules are held against.
#pragma once

#include <vector>

#include "base/modules.h"

namespace tub::document {

/// Taken from a laid-out label, or again from its file.
struct LabelMeasures {
  double width_mm = 0;
  double height_mm = 0;
  std::vector<double> pictogram_sides_mm;  ///< of the red squares themselves
  double least_x_height_mm = 0;            ///< of all text
  double least_line_distance = 0;          ///< from baseline to baseline, in sizes of the type
  double least_contrast = 0;               ///< of text with what it stands on, as 21 to 1
  int colourless_frames = 0;               ///< pictograms whose frame is not red
};

}  // namespace tub::document
