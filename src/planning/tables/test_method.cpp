#include "planning/tables/test_method.h"

#include <fmt/format.h>

#include "base/nearest.h"
#include "base/text.h"
#include "planning/tables/data_row.h"

namespace tub::planning {
namespace {

constexpr double largest_mg_l = 1000;

TestRow read_row(const Node& node) {
  node.allow_only(Names{"division", "half_width", "relative_half_width", "source"});
  TestRow row;
  row.division = data_row::number(node, "division", 1e-3, largest_mg_l);
  row.half_width = data_row::number(node, "half_width", 0, largest_mg_l);
  row.relative_half_width =
      data_row::optional_number(node, "relative_half_width", 0, 1).value_or(0);
  if (const auto source = node.require("source")) {
    row.source = read_provenance(*source).value_or(Provenance{});
  }
  if (row.half_width <= 0 && row.relative_half_width <= 0) {
    node.problem("a test without error is not believed", "give half_width or relative_half_width");
  }
  return row;
}

TestMethod read_method(const Node& node) {
  node.allow_only(Names{"id", "rows"});
  TestMethod method;
  method.id = data_row::text(node, "id");
  const std::optional<Node> rows = node.require("rows");
  if (!rows) return method;
  Names known;
  for (const Reading reading : all_readings) known.emplace_back(name_of(reading));
  known.emplace_back("total_hardness");
  rows->allow_only(known);
  for (const auto& [name, value] : rows->members()) {
    if (const auto reading = reading_named(name)) method.rows[*reading] = read_row(value);
    if (name == "total_hardness") method.total_hardness = read_row(value);
  }
  return method;
}

}  // namespace

std::vector<TestMethod> parse_test_methods(std::string_view text, const std::string& file) {
  return data_row::parse_list(text, file, "test_methods", read_method);
}

}  // namespace tub::planning
