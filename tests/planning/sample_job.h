// A request to plan by, made of the project's own tables.
#pragma once

#include <string>

#include "planning/make_plan.h"

namespace tub::planning {

/// Every data file of the planner, parsed once.
const PlanningData& planning_data();
const SpeciesTable& species_table();

/// A request's parts by the names that a job gives them.
TargetSet target_set(const std::string& id);
MeasureSystem measure_system(const std::string& id);
TestMethod test_method(const std::string& id);
ShelfItem shelf_item(const std::string& product);

/// The garden tub of docs and examples: 1340 L of tap water at pH 7.9, dichlor, a full shelf,
/// drop-kit readings.
PlanRequest sample_request();
/// The same tub and shelf with other readings.
PlanRequest request_for_water(double ph, double total_alkalinity, double calcium_hardness);
/// As `request_for_water`, of a tub that is full and warm.
PlanRequest full_tub(double ph, double total_alkalinity, double calcium_hardness);

/// The plan of a request by the project's own tables.
Plan planned(const PlanRequest& request);

}  // namespace tub::planning
