// The keys of a plan's JSON, in tables that write it and publish its schema. For .cpp files.
#pragma once

#include <span>
#include <string_view>

#include "job/shape/record_keys.h"
#include "planning/plan.h"

namespace tub::job {

RecordFields<WaterState> water_state_fields();
RecordFields<Interval> interval_fields();
RecordFields<Step> step_fields_of_kind(std::string_view kind);
RecordFields<Plan> plan_fields();

/// Every kind of step, in the order of the schema.
std::span<const std::string_view> step_kinds();

nlohmann::ordered_json step_json(const Step& step);
nlohmann::ordered_json reason_json(const Reason& reason);
nlohmann::ordered_json reason_schema();

/// A number, or null where there is none.
nlohmann::ordered_json number_or_null(const std::optional<double>& value);

}  // namespace tub::job
