// The step `dose` of the `water` format: which compounds, to which readings.
#pragma once

#include <optional>

#include "water/steps.h"

namespace tub::water {

/// `{"dose": ["NaHCO3", "NaHSO4"], "to": {"ph": 7.4, "total_alkalinity_mg_l": 100}}`.
std::optional<WaterStep> read_dose(const Node& step, const WaterReading& reading);

/// The readings that a dose may aim at.
std::vector<std::string> dose_target_names();

}  // namespace tub::water
