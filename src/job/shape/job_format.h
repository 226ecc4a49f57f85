// The job format for people and programs: its JSON Schema, and a starter job to fill in.
#pragma once

#include <optional>
#include <string>

#include "job/job.h"

namespace tub::job {

/// The JSON Schema (2020-12) of a job, from the table that reads it.
std::string job_schema(const Catalogue& catalogue);

/// A job with comments that lacks nothing but the readings, which are null.
///
/// date:   today
/// shop:   what it sets is put in; a logo's path as seen from its `file`
/// Throws: Error with every problem of the shop's file
std::string starter_job(const CalendarDate& date, const std::optional<NamedText>& shop,
                        const Catalogue& catalogue);

}  // namespace tub::job
