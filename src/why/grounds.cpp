#include "why/grounds.h"

#include <fmt/format.h>

#include <algorithm>

#include "base/text.h"
#include "job/read/slip.h"
#include "why/asking.h"

namespace tub::why {
namespace {

std::string ground(Asking& asking, const std::string& id, const std::string& name, double value,
                   const std::string& unit, Origin origin) {
  return asking.put(Node{id, name, value, unit, "given", {}, std::move(origin)}, value);
}

/// A text such as "5 °dH": its number, its unit, and what that unit means.
struct Written {
  double number = 0;
  std::string unit;
  double factor = 1;
  double offset = 0;
  std::string meaning{};
};

std::string meaning_of(QuantityKind kind, const std::string& unit) {
  for (const Unit& row : units()) {
    const bool is_it = row.name == unit || std::find(row.spellings.begin(), row.spellings.end(),
                                                     unit) != row.spellings.end();
    if (row.kind == kind && is_it) return row.meaning;
  }
  return "";
}

std::optional<Written> taken_apart(QuantityKind kind, const std::string& text) {
  const std::size_t end = text.find_first_not_of("+-0123456789.eE");
  const auto number = to_number(std::string(trimmed(text.substr(0, end))));
  if (!number || end == std::string::npos) return std::nullopt;
  Written written{*number, std::string(trimmed(text.substr(end)))};
  const auto at = [&](const char* count) {
    return parse_quantity(kind, fmt::format("{} {}", count, written.unit)).value;
  };
  const auto none = at("0");
  const auto one = at("1");
  if (!one) return std::nullopt;
  // A temperature below nothing cannot be written in kelvin: its factor is one.
  written.offset = none.value_or(*one - 1);
  written.factor = *one - written.offset;
  written.meaning = meaning_of(kind, written.unit);
  return written;
}

std::string in_own_unit_of(Asking& asking, const std::string& leaf, const Written& written,
                           const std::string& unit, const std::string& name) {
  const std::string per =
      constant(asking, "one " + written.unit, written.factor, unit,
               definition(written.meaning.empty() ? "table of units" : written.meaning));
  const std::string id = leaf + "#in_own_unit";
  if (written.offset == 0) {
    return asking.put(id, name, unit, "product", {{"as_written", leaf}, {"one_unit", per}});
  }
  const std::string scaled = asking.put(id + "_scaled", "scaled", unit, "product",
                                        {{"as_written", leaf}, {"one_unit", per}});
  const std::string zero = constant(asking, "0 " + written.unit, written.offset, unit,
                                    definition("where the scale starts"));
  return asking.put(id, name, unit, "sum", {{"scaled", scaled}, {"start_of_scale", zero}});
}

/// The text of a quantity: itself, or the value of an object.
std::string value_pointer(const Flat& job, const std::string& pointer) {
  return job.has(pointer + "/value") ? pointer + "/value" : pointer;
}

std::string quantity(Asking& asking, const std::string& pointer, QuantityKind kind,
                     const std::string& name, Origin origin) {
  const std::string at = value_pointer(asking.in_job(), pointer);
  const auto text = asking.in_job().text(at);
  if (!text) return "";
  const auto written = taken_apart(kind, *text);
  if (!written) return "";
  origin.where = at;
  origin.as_written = *text;
  const bool is_own = written->factor == 1 && written->offset == 0;
  const std::string unit = description_of(kind).own_unit;
  const std::string leaf = ground(asking, "job:" + at, name, written->number,
                                  is_own ? unit : written->unit, std::move(origin));
  return is_own ? leaf : in_own_unit_of(asking, leaf, *written, unit, name);
}

/// How sure a slip is of a reading: its method's row, as far as there is one.
Origin slip_origin(Asking& asking, const std::string& key, const MeasuredReading& measured) {
  Origin origin{Ground::test_slip, "", "", measured.method};
  const auto reading = reading_named(key);
  if (!reading) return origin;
  for (const TestMethod& method : asking.data.test_methods) {
    const auto row = method.rows.find(*reading);
    if (method.id != measured.method || row == method.rows.end()) continue;
    origin.division = row->second.division;
    origin.test_unit = unit_of_key(key);
    origin.half_width = row->second.half_width_at(measured.value);
    origin.source = row->second.source;
  }
  return origin;
}

}  // namespace

std::string constant(Asking& asking, const std::string& name, double value, const std::string& unit,
                     const Provenance& source) {
  Origin origin;
  origin.source = source;
  return ground(asking, name, replaced(name, " ", "_"), value, unit, origin);
}

std::string data_row(Asking& asking, const std::string& where, const std::string& name,
                     double value, const std::string& unit, const Provenance& source) {
  Origin origin{Ground::data_row, where};
  origin.source = source;
  return ground(asking, where, name, value, unit, origin);
}

std::string assumption(Asking& asking, const Assumed& assumed, const std::string& which) {
  const double value = which == "low"    ? assumed.low
                       : which == "high" ? assumed.high
                                         : assumed.value;
  return data_row(asking, fmt::format("assumptions.json: {}/{}", assumed.code, which),
                  assumed.code + (which == "value" ? "" : "_" + which), value, assumed.unit,
                  assumed.source);
}

std::string job_quantity(Asking& asking, const std::string& pointer, QuantityKind kind,
                         const std::string& name) {
  return quantity(asking, pointer, kind, name, {Ground::job});
}

std::string job_number(Asking& asking, const std::string& pointer, const std::string& name,
                       const std::string& unit) {
  const std::string at = value_pointer(asking.in_job(), pointer);
  const auto number = asking.in_job().number(at);
  if (!number) return "";
  return ground(asking, "job:" + at, name, *number, unit, {Ground::job, at, shortest(*number)});
}

std::string slip_reading(Asking& asking, const std::string& slip, const std::string& key) {
  const WaterTest& test = asking.slip_readings(slip);
  const auto found = test.readings.find(key);
  if (found == test.readings.end()) return "";
  Origin origin = slip_origin(asking, key, found->second);
  std::string name = key;
  for (const SlipField& field : slip_fields()) {
    if (field.key != key) continue;
    name = field.name;
    if (key == "ph") break;
    const std::string id = quantity(asking, slip + "/" + name, field.kind, name, origin);
    if (!id.empty()) return id;
  }
  origin.where = value_pointer(asking.in_job(), slip + "/" + name);
  if (const auto number = asking.in_job().number(origin.where)) {
    origin.as_written = shortest(*number);
  }
  const std::string id = "job:" + origin.where;
  return ground(asking, id, name, found->second.value, unit_of_key(key), std::move(origin));
}

Provenance definition(std::string text) { return {Provenance::Kind::definition, std::move(text)}; }
Provenance assumed_by_us(std::string text) {
  return {Provenance::Kind::assumption, std::move(text)};
}
Provenance remembered(std::string text) { return {Provenance::Kind::from_memory, std::move(text)}; }

}  // namespace tub::why
