// Retests and later visits of a job: where each was taken, and what it found.
#include <fmt/format.h>

#include <algorithm>
#include <limits>
#include <utility>

#include "job/read/slip.h"
#include "job/shape/job_parts.h"
#include "planning/retests/judged_water.h"

namespace tub::job {
namespace {

constexpr std::array counted_as_found = {Reading::copper, Reading::iron, Reading::manganese};

bool is_in_a_retest(const SlipField& field) {
  const auto reading = reading_named(field.name);
  const auto holds = [&](const auto& readings) {
    return reading && std::find(readings.begin(), readings.end(), *reading) != readings.end();
  };
  return holds(foretold_readings) || holds(counted_as_found);
}

std::optional<int> whole(const Value& item, std::string_view name) {
  const auto number = item.number(name);
  return number ? std::optional(static_cast<int>(*number)) : std::nullopt;
}

/// What its test does not show cannot be weighed against what was expected.
bool is_shown(const Value& value, const SlipField& field, const std::string& id,
              const JobReading& reading) {
  const auto* const method = row_named(reading.catalogue.planning.test_methods, std::optional(id));
  const auto known = reading_named(field.name);
  if (method == nullptr || method->rows.contains(*known)) return true;
  value.problem(fmt::format("{} is not a reading that a {} shows", field.name, id),
                "say what it was tested with: { \"value\": …, \"tested_with\": … }");
  return false;
}

void read_findings(const Value& item, const std::string& method, const JobReading& reading,
                   RetestReport& report) {
  bool is_any_given = false;
  for (const SlipField& field : slip_fields()) {
    is_any_given = is_any_given || item.node().find(field.name).has_value();
    const Value* const value = item.find(field.name);
    if (value == nullptr) continue;
    if (!is_in_a_retest(field)) {
      value->problem(fmt::format("a plan is not steered by {} once it is under way", field.name),
                     "remove it; the water that the plan starts from may have it");
      continue;
    }
    const auto measured = measured_reading(*value, method);
    if (measured && is_shown(*value, field, measured->method, reading)) {
      report.readings[std::string(field.key)] = *measured;
    }
  }
  if (is_any_given) return;
  item.problem("there is no reading in it", "add what the test showed, such as \"ph\": 7.7");
}

void require_place(const Value& item) {
  const bool has_step = item.node().find("after_step").has_value();
  if (!has_step && !item.node().find("date")) {
    item.problem("nothing says when these readings were taken",
                 "add \"after_step\": the number printed on the rung, or the \"date\" of a later "
                 "visit");
  }
  for (const char* const name : {"after_pour", "after_round"}) {
    const Value* const value = item.find(name);
    if (has_step || value == nullptr) continue;
    value->problem(fmt::format("{} without after_step is at no step", name),
                   "add \"after_step\": the number printed on the rung");
  }
}

/// Where in a step a report was taken: at its end where it says nothing.
std::pair<int, int> within_step(const RetestReport& report) {
  constexpr int end = std::numeric_limits<int>::max();
  return {report.after_round.value_or(end), report.after_pour.value_or(end)};
}

void require_order(const Value& item, const RetestReport& before, const RetestReport& after) {
  const char* const help = "put the readings in the order in which they were taken";
  if (!before.date.empty() && !after.date.empty() && after.date < before.date) {
    item.problem(
        fmt::format("the day {} is before that of an earlier reading, {}", after.date, before.date),
        help);
  }
  if (!before.after_step || !after.after_step) return;
  if (*after.after_step < *before.after_step) {
    item.problem(fmt::format("step {} is before that of an earlier reading, {}", *after.after_step,
                             *before.after_step),
                 help);
  } else if (*after.after_step == *before.after_step && within_step(after) < within_step(before)) {
    item.problem(fmt::format("an earlier reading was taken later in step {}", *after.after_step),
                 help);
  }
}

}  // namespace

std::vector<RetestReport> read_retests(const Value& readings, const std::string& method,
                                       const JobReading& reading) {
  std::vector<RetestReport> reports;
  RetestReport last_step;
  for (const Value& item : readings.items()) {
    if (!item.is_object()) continue;
    RetestReport report;
    report.where = item.node().where();
    report.after_step = whole(item, "after_step");
    report.after_pour = whole(item, "after_pour");
    report.after_round = whole(item, "after_round");
    report.date = item.text("date").value_or("");
    report.temperature_c = item.number("temperature");
    read_findings(item, item.text("tested_with").value_or(method), reading, report);
    require_place(item);
    require_order(item, last_step, report);
    if (report.after_step) {
      last_step.after_step = report.after_step;
      last_step.after_pour = report.after_pour;
      last_step.after_round = report.after_round;
    }
    if (!report.date.empty()) last_step.date = report.date;
    reports.push_back(std::move(report));
  }
  return reports;
}

}  // namespace tub::job
