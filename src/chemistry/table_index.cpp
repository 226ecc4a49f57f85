#include "chemistry/table_index.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "base/error.h"
#include "base/node.h"
#include "base/text.h"

namespace tub::chemistry {
namespace {

std::vector<FactorRow> read_rows(const Node& parent, std::string_view name) {
  std::vector<FactorRow> rows;
  const auto list = parent.require(name);
  if (!list) return rows;
  for (const Node& item : list->items()) {
    const std::vector<Node> pair = item.items();
    if (pair.size() != 2) {
      item.problem("expected a pair of numbers");
      continue;
    }
    rows.push_back({pair[0].number().value_or(0), pair[1].number().value_or(0)});
    if (rows.size() > 1 && rows[rows.size() - 2].at >= rows.back().at)
      item.problem("the rows must rise");
  }
  if (rows.size() < 2) list->problem("expected two rows or more");
  return rows;
}

[[noreturn]] void throw_outside(std::string_view what, double found, double low, double high) {
  throw Error(Diagnostic{
      fmt::format("the table of {} goes from {} to {}, found {}", what, low, high, fixed(found, 1)),
      "",
      {},
      "use the equilibrium index there"});
}

// The first row at or above a place, which lies inside the table.
std::vector<FactorRow>::const_iterator row_above(const std::vector<FactorRow>& rows, double at,
                                                 std::string_view what) {
  if (!(at >= rows.front().at && at <= rows.back().at))
    throw_outside(what, at, rows.front().at, rows.back().at);
  return std::find_if(std::next(rows.begin()), rows.end(),
                      [&](const FactorRow& row) { return row.at >= at; });
}

double nearest_factor(const std::vector<FactorRow>& rows, double at, std::string_view what) {
  const auto above = row_above(rows, at, what);
  const auto below = std::prev(above);
  return at - below->at <= above->at - at ? below->factor : above->factor;
}

double linear_factor(const std::vector<FactorRow>& rows, double at, std::string_view what) {
  const auto above = row_above(rows, at, what);
  const auto below = std::prev(above);
  return std::lerp(below->factor, above->factor, (at - below->at) / (above->at - below->at));
}

double factor(const std::vector<FactorRow>& rows, double at, LookUp look_up,
              std::string_view what) {
  return look_up == LookUp::nearest ? nearest_factor(rows, at, what)
                                    : linear_factor(rows, at, what);
}

double carbonate_alkalinity(const IndexInputs& inputs, const IndexTables& tables) {
  if (inputs.cyanuric_acid_mg_l == 0) return inputs.total_alkalinity_mg_l;
  return inputs.total_alkalinity_mg_l -
         inputs.cyanuric_acid_mg_l * linear_factor(tables.cyanurate, inputs.ph, "pH");
}

void require_positive(double value, std::string_view what) {
  if (!(value > 0))
    throw Error(Diagnostic{fmt::format("{} has no logarithm: {}", what, value),
                           "",
                           {},
                           "use the equilibrium index there"});
}

}  // namespace

IndexTables parse_index_tables(std::string_view text, const std::string& filename) {
  Problems problems;
  const Node root = Node::parse(text, filename, problems);
  IndexTables tables;
  tables.temperature_f = read_rows(root, "temperature_f");
  tables.calcium = read_rows(root, "calcium_hardness");
  tables.alkalinity = read_rows(root, "total_alkalinity");
  if (const auto source = root.require("source")) tables.source = source->text().value_or("");
  if (const auto cyanurate = root.require("cyanurate_factor"))
    tables.cyanurate = read_rows(*cyanurate, "by_ph");
  if (const auto constant = root.require("constant")) {
    if (const auto low = constant->require("to_1000_mg_l_of_solids"))
      tables.constant_to_1000 = low->number(10, 15).value_or(0);
    if (const auto high = constant->require("above"))
      tables.constant_above = high->number(10, 15).value_or(0);
  }
  problems.throw_if_any();
  return tables;
}

TableIndex table_index(const IndexInputs& inputs, LookUp look_up, const IndexTables& tables) {
  TableIndex result;
  result.carbonate_alkalinity_mg_l = carbonate_alkalinity(inputs, tables);
  result.temperature_factor =
      factor(tables.temperature_f, inputs.temperature.fahrenheit(), look_up, "temperature");
  if (look_up == LookUp::closed_form) {
    require_positive(inputs.calcium_hardness_mg_l, "calcium hardness");
    require_positive(result.carbonate_alkalinity_mg_l, "alkalinity");
    result.calcium_factor = std::log10(inputs.calcium_hardness_mg_l) - 0.4;
    result.alkalinity_factor = std::log10(result.carbonate_alkalinity_mg_l);
  } else {
    result.calcium_factor =
        factor(tables.calcium, inputs.calcium_hardness_mg_l, look_up, "calcium hardness");
    result.alkalinity_factor =
        factor(tables.alkalinity, result.carbonate_alkalinity_mg_l, look_up, "alkalinity");
  }
  result.constant =
      inputs.dissolved_solids_mg_l <= 1000 ? tables.constant_to_1000 : tables.constant_above;
  result.index = inputs.ph + result.temperature_factor + result.calcium_factor +
                 result.alkalinity_factor - result.constant;
  return result;
}

double langelier_closed_form(const IndexInputs& inputs) {
  require_positive(inputs.dissolved_solids_mg_l, "dissolved solids");
  require_positive(inputs.calcium_hardness_mg_l, "calcium hardness");
  require_positive(inputs.total_alkalinity_mg_l, "alkalinity");
  const double a = (std::log10(inputs.dissolved_solids_mg_l) - 1) / 10;
  const double b = -13.12 * std::log10(inputs.temperature.celsius() + 273) + 34.55;
  const double c = std::log10(inputs.calcium_hardness_mg_l) - 0.4;
  const double d = std::log10(inputs.total_alkalinity_mg_l);
  return inputs.ph - (9.3 + a + b - c - d);
}

}  // namespace tub::chemistry
