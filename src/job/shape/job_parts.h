// The parts of a job, each from the fields that its shape allowed.
#pragma once

#include <map>
#include <optional>
#include <string>
#include <vector>

#include "job/job.h"
#include "job/shape/catalogue.h"
#include "job/shape/value.h"
#include "planning/heading.h"
#include "planning/request.h"

namespace tub::job {

/// What every part is read with. Problems go to the nodes' own list.
struct JobReading {
  const Catalogue& catalogue;
  std::vector<Diagnostic>& warnings;

  void warn(const Value& at, std::string message, std::string help) const {
    warnings.push_back({std::move(message), at.node().where(), {}, std::move(help)});
  }
};

Tub read_vessel(const Value& vessel, const std::string& method, const JobReading& reading);
/// water: `source_water`, `tub_water` or `second_source`
WaterTest read_slip(const Value& water, const JobReading& reading);
/// A reading with its own test, or else with that one.
std::optional<MeasuredReading> measured_reading(const Value& value,
                                                const std::optional<std::string>& method);
/// readings: retests and later visits; method: what the person at the tub tests with
std::vector<RetestReport> read_retests(const Value& readings, const std::string& method,
                                       const JobReading& reading);
/// date: of the job; what weakens with age is aged until then, and that is told in `assumed`
std::vector<ShelfItem> read_shelf(const Value& shelf, const Tub& tub,
                                  const std::optional<CalendarDate>& date,
                                  const JobReading& reading, std::vector<Reason>& assumed);
/// The shelf's items that say what a package of theirs holds.
std::vector<Package> read_packages(const Value& job, const std::vector<ShelfItem>& shelf,
                                   const JobReading& reading);
Sanitizer read_sanitizer(const Value& sanitizer);
/// Checks that the set may serve this tub and this sanitizer.
TargetSet read_targets(const Value& job, const Tub& tub, const Sanitizer& sanitizer,
                       const JobReading& reading);
std::vector<SheetRequest> read_sheets(const Value& job);
std::optional<StockRequest> read_stock(const Value& stock);
/// The printer that is used where none is named comes first.
std::vector<PrinterEntry> read_printers(const Value& shop);

/// The row of that name; null if the name was wrong and has been reported.
template <class Row>
const Row* row_named(const std::vector<Row>& rows, const std::optional<std::string>& id) {
  for (const Row& row : rows) {
    if (id && row.id == *id) return &row;
  }
  return nullptr;
}

}  // namespace tub::job
