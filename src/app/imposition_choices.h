// What the command line says of how labels lie on their sheets.
#pragma once

#include <optional>

#include "app/arguments.h"
#include "job/job.h"
#include "layout/labels/impose.h"

namespace tub::app {

/// Nothing where the command line leaves the choice to the job.
struct ImpositionChoices {
  std::optional<int> first;
  std::optional<int> copies;
  std::optional<double> bleed_mm;
  bool has_crop_marks = false;
  PrinterCorrection correction;  ///< of the printer that it names, or of the shop's usual one
};

/// Reads --start-at, --copies, --bleed, --crop-marks and --printer; adds a problem for each that
/// says nothing sensible.
ImpositionChoices read_imposition(const Arguments& arguments, const Job& job, Problems& problems);

}  // namespace tub::app
