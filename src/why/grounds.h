// Where chains end: the test slip, the job, rows of data, definitions.
#pragma once

#include <string>

#include "planning/tables/assumptions.h"
#include "units/display.h"
#include "why/chain.h"

namespace tub::why {

class Asking;

/// A constant by its name, which is its identifier.
std::string constant(Asking& asking, const std::string& name, double value, const std::string& unit,
                     const Provenance& source);
/// A figure of a data file: "products.json: dry_acid/strength".
std::string data_row(Asking& asking, const std::string& where, const std::string& name,
                     double value, const std::string& unit, const Provenance& source);
/// A row of assumptions.json; `which`: "value", "low" or "high".
std::string assumption(Asking& asking, const Assumed& assumed, const std::string& which = "value");

/// A quantity of the job at a pointer, in its kind's own unit: the number as it was written, times
/// its unit. Nothing is there: empty.
std::string job_quantity(Asking& asking, const std::string& pointer, QuantityKind kind,
                         const std::string& name);
/// A bare number of the job; nothing is there: empty.
std::string job_number(Asking& asking, const std::string& pointer, const std::string& name,
                       const std::string& unit);

/// A reading of a slip ("/source_water", "/tub_water", "/second_source") by its key; empty if the
/// slip does not have it.
std::string slip_reading(Asking& asking, const std::string& slip, const std::string& key);

Provenance definition(std::string text);
Provenance assumed_by_us(std::string text);
Provenance remembered(std::string text);

}  // namespace tub::why
