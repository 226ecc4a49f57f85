#include "planning/tables/data_row.h"

#include <fmt/format.h>

#include <limits>
#include <set>

namespace tub::planning::data_row {

double number(const Node& row, std::string_view name, double low, double high) {
  const std::optional<Node> field = row.require(name);
  return field ? field->number(low, high).value_or(0) : 0;
}

std::optional<double> optional_number(const Node& row, std::string_view name, double low,
                                      double high) {
  const std::optional<Node> field = row.find(name);
  return field ? field->number(low, high) : std::nullopt;
}

std::string text(const Node& row, std::string_view name) {
  const std::optional<Node> field = row.require(name);
  return field ? field->text().value_or("") : "";
}

std::string name(const Node& row, std::string_view field, std::span<const std::string> known) {
  const std::optional<Node> found = row.require(field);
  return found ? found->one_of(known).value_or("") : "";
}

std::vector<std::string> names(const Node& row, std::string_view field,
                               std::span<const std::string> known) {
  std::vector<std::string> result;
  for (const Node& item : items(row, field)) {
    if (const auto found = item.one_of(known)) result.push_back(*found);
  }
  return result;
}

std::optional<Range> optional_range(const Node& row, std::string_view field) {
  const std::optional<Node> found = row.find(field);
  if (!found) return std::nullopt;
  const std::vector<Node> ends = found->items();
  if (ends.size() != 2) {
    found->problem(fmt::format("expected [low, high], found {} numbers", ends.size()));
    return std::nullopt;
  }
  const auto low = ends.front().number(0, std::numeric_limits<double>::max());
  const auto high = ends.back().number(low.value_or(0), std::numeric_limits<double>::max());
  if (!low || !high) return std::nullopt;
  return Range{*low, *high};
}

std::vector<std::string> texts(const Node& row, std::string_view field) {
  std::vector<std::string> result;
  if (const std::optional<Node> list = row.find(field)) {
    for (const Node& item : list->items()) result.push_back(item.text().value_or(""));
  }
  return result;
}

bool flag(const Node& row, std::string_view field, bool otherwise) {
  const std::optional<Node> found = row.find(field);
  return found ? found->boolean().value_or(otherwise) : otherwise;
}

std::vector<Node> items(const Node& row, std::string_view field) {
  const std::optional<Node> found = row.require(field);
  return found ? found->items() : std::vector<Node>{};
}

void report_duplicate_ids(const std::vector<Node>& rows) {
  std::set<std::string> seen;
  for (const Node& row : rows) {
    const std::optional<Node> id = row.find("id");
    if (!id || !id->is_text() || seen.insert(*id->text()).second) continue;
    id->problem(fmt::format("another row has the id {}", id->shown()), "name one of them anew");
  }
}

}  // namespace tub::planning::data_row
