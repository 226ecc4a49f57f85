#include "planning/tables/targets.h"

#include <fmt/format.h>

#include "base/nearest.h"
#include "base/text.h"
#include "planning/tables/data_row.h"
#include "planning/tables/product.h"

namespace tub::planning {
namespace {

const Names uses = {"private", "rented", "public"};
const Names set_fields = {"id",      "authority", "source",          "from_memory",
                          "uses",    "forbids",   "advises_against", "temperature_max_c",
                          "readings"};
const Names target_fields = {"low",  "ideal",           "high",  "bathe_low",
                             "stop", "stop_is_assumed", "source"};
constexpr double highest_mg_l = 10000;  // far above any water that a target speaks of

Names reading_names() {
  Names names;
  for (const Reading reading : all_readings) names.emplace_back(name_of(reading));
  return names;
}

/// The reading that a member is named by; a problem if there is none.
std::optional<Reading> reading_of(const Node::Member& member) {
  const std::optional<Reading> reading = reading_named(member.name);
  if (!reading) {
    const Names known = reading_names();
    member.value.problem(fmt::format("the reading \"{}\" is not known here", member.name),
                         suggestion(member.name, known));
  }
  return reading;
}

void check_order(const Node& row, const std::optional<double>& low,
                 const std::optional<double>& high, std::string_view names) {
  if (low && high && *low > *high) row.problem(fmt::format("{} are in the wrong order", names));
}

Target read_target(const Node& row) {
  row.allow_only(target_fields);
  Target target;
  target.low = data_row::optional_number(row, "low", 0, highest_mg_l);
  target.ideal = data_row::optional_number(row, "ideal", 0, highest_mg_l);
  target.high = data_row::optional_number(row, "high", 0, highest_mg_l);
  target.bathe_low = data_row::optional_number(row, "bathe_low", 0, highest_mg_l);
  target.stop = data_row::optional_number(row, "stop", 0, highest_mg_l);
  if (const auto assumed = row.find("stop_is_assumed")) {
    target.stop_is_assumed = assumed->boolean().value_or(false);
  }
  if (const auto source = row.find("source")) target.source = read_provenance(*source);
  check_order(row, target.low, target.high, "low and high");
  check_order(row, target.low, target.ideal, "low and ideal");
  check_order(row, target.ideal, target.high, "ideal and high");
  check_order(row, target.bathe_low, target.stop, "bathe_low and stop");
  return target;
}

TargetSet read_set(const Node& row) {
  row.allow_only(set_fields);
  TargetSet set;
  set.id = data_row::text(row, "id");
  set.authority = data_row::text(row, "authority");
  set.source = data_row::text(row, "source");
  if (const auto memory = row.require("from_memory")) {
    set.from_memory = memory->boolean().value_or(false);
  }
  set.uses = data_row::names(row, "uses", uses);
  set.forbids = data_row::names(row, "forbids", known_groups());
  set.advises_against = data_row::names(row, "advises_against", known_groups());
  set.temperature_max_c =
      data_row::optional_number(row, "temperature_max_c", 20, 40).value_or(set.temperature_max_c);
  if (const auto readings = row.require("readings")) {
    for (const Node::Member& member : readings->members()) {
      if (const auto reading = reading_of(member))
        set.readings[*reading] = read_target(member.value);
    }
  }
  return set;
}

ByReading<Ceiling> read_ceilings(const Node& node) {
  ByReading<Ceiling> ceilings;
  for (const Node::Member& member : node.members()) {
    const auto reading = reading_of(member);
    member.value.allow_only(Names{"stop", "source"});
    const auto source = member.value.require("source");
    if (!reading || !source) continue;
    ceilings[*reading] = {data_row::number(member.value, "stop", 0, highest_mg_l),
                          read_provenance(*source).value_or(Provenance{})};
  }
  return ceilings;
}

Gate read_gate(const Node& node) {
  Gate gate;
  for (const Node::Member& member : node.members()) {
    if (member.name == "source") {
      gate.source = read_provenance(member.value).value_or(Provenance{});
    } else if (member.name == "ceilings") {
      gate.ceilings = read_ceilings(member.value);
    } else if (const auto reading = reading_of(member)) {
      const std::optional<Range> range = data_row::optional_range(node, member.name);
      if (range) gate.readings[*reading] = *range;
    }
  }
  node.require("source");
  node.require("ceilings");
  return gate;
}

Node parse_root(std::string_view text, const std::string& file, Problems& problems) {
  Node root = Node::parse(text, file, problems);
  root.allow_only(Names{"_about", "gate", "sets"});
  return root;
}

}  // namespace

std::vector<TargetSet> parse_target_sets(std::string_view text, const std::string& file) {
  Problems problems;
  const std::vector<Node> rows = data_row::items(parse_root(text, file, problems), "sets");
  data_row::report_duplicate_ids(rows);
  std::vector<TargetSet> sets = data_row::read_all(rows, read_set);
  problems.throw_if_any();
  return sets;
}

Gate parse_gate(std::string_view text, const std::string& file) {
  Problems problems;
  const std::optional<Node> node = parse_root(text, file, problems).require("gate");
  Gate gate = node ? read_gate(*node) : Gate{};
  problems.throw_if_any();
  return gate;
}

}  // namespace tub::planning
