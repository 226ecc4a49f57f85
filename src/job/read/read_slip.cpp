// A test slip: readings, what they were read with, and which of them must be there.
#include <fmt/format.h>

#include <cmath>

#include "base/text.h"
#include "chemistry/operations.h"
#include "job/read/slip.h"
#include "job/shape/job_parts.h"

namespace tub::job {
namespace {

void require_method(const Value& water, const WaterTest& test) {
  if (water.node().find("tested_with")) return;
  for (const auto& [key, reading] : test.readings) {
    if (!reading.method.empty()) continue;
    water.problem("nothing says what the readings were tested with",
                  "add \"tested_with\": strip, drop_kit or photometer");
    return;
  }
}

// A test does not show every reading; what it cannot show came from elsewhere.
void warn_of_method(const Value& water, const WaterTest& test, const JobReading& reading) {
  for (const SlipField& field : slip_fields()) {
    const Value* const value = water.find(field.name);
    const auto measured = test.readings.find(std::string(field.key));
    const auto known = reading_named(field.name);
    if (value == nullptr || measured == test.readings.end() || !known) continue;
    const std::string& id = measured->second.method;
    const auto* const method =
        row_named(reading.catalogue.planning.test_methods, std::optional(id));
    if (method == nullptr || method->rows.contains(*known)) continue;
    reading.warn(*value, fmt::format("{} is not a reading that a {} shows", field.name, id),
                 "say what it was tested with: { \"value\": …, \"tested_with\": … }");
  }
}

void require_hardness(const Value& water) {
  const bool is_given =
      water.node().find("calcium_hardness") || water.node().find("total_hardness");
  if (is_given) return;
  water.problem("the field \"calcium_hardness\" is missing",
                "test the calcium hardness: no plan can be made without it");
}

// Calcium is what the plan is about; of a total alone only a share is taken for it.
void ask_for_calcium(const Value& water, const JobReading& reading) {
  const Value* const total = water.find("total_hardness");
  const bool is_told =
      water.node().find("calcium_hardness") || water.node().find("magnesium_hardness");
  if (total == nullptr || is_told) return;
  const Assumed& share = reading.catalogue.planning.assumptions.magnesium_share;
  reading.warn(*total,
               fmt::format("only the total hardness is known: {} % of it is taken for calcium, it "
                           "may be {} to {} %",
                           fixed(100 * (1 - share.value), 0), fixed(100 * (1 - share.high), 0),
                           fixed(100 * (1 - share.low), 0)),
               "test the calcium hardness, and add \"calcium_hardness\"");
}

// A part that reads more than the whole.
void require_part_of(const Value& water, const char* part, const char* whole) {
  const Value* const small = water.find(part);
  const Value* const large = water.find(whole);
  if (small == nullptr || large == nullptr) return;
  const auto part_value = measured_reading(*small, {});
  const auto whole_value = measured_reading(*large, {});
  if (!part_value || !whole_value || part_value->value <= whole_value->value) return;
  small->problem(fmt::format("{} is {} mg/L, more than the {} of {} mg/L", part,
                             shortest(part_value->value), whole, shortest(whole_value->value)),
                 "test both again");
}

// The 90 % half-width of a hardness by its own test; none where that states none.
double hardness_error(const WaterTest& test, const std::string& key, const JobReading& reading) {
  const MeasuredReading& measured = test.readings.at(key);
  const auto* const method =
      row_named(reading.catalogue.planning.test_methods, std::optional(measured.method));
  if (method == nullptr) return 0;
  const auto known = reading_named(key);
  if (!known)
    return method->total_hardness ? method->total_hardness->half_width_at(measured.value) : 0;
  const auto row = method->rows.find(*known);
  return row == method->rows.end() ? 0 : row->second.half_width_at(measured.value);
}

// A total beside both its parts is compared with them.
void compare_hardness(const Value& water, const WaterTest& test, const JobReading& reading) {
  const Value* const total = water.find("total_hardness");
  const auto whole = test.value("total_hardness_mg_l");
  const auto calcium = test.value("calcium_hardness_mg_l");
  const auto magnesium = test.value("magnesium_hardness_mg_l");
  if (total == nullptr || !whole || !calcium || !magnesium) return;
  const double errors = std::hypot(hardness_error(test, "total_hardness_mg_l", reading),
                                   hardness_error(test, "calcium_hardness_mg_l", reading));
  const double parts = *calcium + *magnesium;
  if (std::abs(*whole - parts) <= errors) return;
  reading.warn(*total,
               fmt::format("the total hardness is {} mg/L as CaCO3, its parts together are {}: "
                           "further apart than their tests are off",
                           fixed(*whole, 0), fixed(parts, 0)),
               "test them again; the plan goes by the parts");
}

Readings readings_from(const WaterTest& test) {
  Readings readings;
  readings.temperature_c = test.temperature_c;
  for (const auto& key : reading_keys) {
    const auto found = test.readings.find(std::string(key.name));
    if (found != test.readings.end()) readings.*(key.member) = found->second.value;
  }
  return readings;
}

// Asks the chemistry whether there can be such a water at all.
void require_possible(const Value& water, const WaterTest& test, const SpeciesTable& species) {
  const bool is_whole =
      test.readings.contains("ph") && test.readings.contains("total_alkalinity_mg_l");
  if (!is_whole) return;
  try {
    static_cast<void>(water_from_readings(readings_from(test), Balance::none, species));
  } catch (const Error& error) {
    for (const Diagnostic& found : error.diagnostics()) {
      const Value* const alkalinity = water.find("total_alkalinity");
      (alkalinity != nullptr ? *alkalinity : water)
          .problem("there is no such water: " + found.message,
                   "test pH and total alkalinity again");
    }
  }
}

}  // namespace

std::optional<MeasuredReading> measured_reading(const Value& value,
                                                const std::optional<std::string>& method) {
  const auto number = value.is_object() ? value.number("value") : value.number();
  const auto own = value.is_object() ? value.text("tested_with") : std::nullopt;
  if (!number) return std::nullopt;
  return MeasuredReading{*number, own ? *own : method.value_or("")};
}

WaterTest read_slip(const Value& water, const JobReading& reading) {
  WaterTest test;
  const auto temperature = water.number("temperature");
  test.temperature_is_assumed = !temperature;
  test.temperature_c =
      temperature.value_or(reading.catalogue.planning.assumptions.source_temperature_c.value);
  const auto method = water.text("tested_with");
  for (const SlipField& field : slip_fields()) {
    const Value* const value = water.find(field.name);
    if (value == nullptr) continue;
    if (const auto measured = measured_reading(*value, method)) {
      test.readings[std::string(field.key)] = *measured;
    }
  }
  require_method(water, test);
  warn_of_method(water, test, reading);
  require_hardness(water);
  ask_for_calcium(water, reading);
  require_part_of(water, "free_chlorine", "total_chlorine");
  require_part_of(water, "calcium_hardness", "total_hardness");
  require_part_of(water, "magnesium_hardness", "total_hardness");
  compare_hardness(water, test, reading);
  require_possible(water, test, reading.catalogue.species);
  return test;
}

}  // namespace tub::job
