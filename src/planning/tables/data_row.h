// Reading rows of the planning data: fields that must be there, that may, and lists of names.
#pragma once

#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "base/interval.h"
#include "base/node.h"

namespace tub::planning::data_row {

/// The number of a field that must be there; 0, and a problem, if it is not or lies outside.
double number(const Node& row, std::string_view name, double low, double high);
/// The number of a field that may be missing.
std::optional<double> optional_number(const Node& row, std::string_view name, double low,
                                      double high);
/// The text of a field that must be there.
std::string text(const Node& row, std::string_view name);
/// One of the known names, in a field that must be there.
std::string name(const Node& row, std::string_view field, std::span<const std::string> known);
/// A list of known names, in a field that must be there.
std::vector<std::string> names(const Node& row, std::string_view field,
                               std::span<const std::string> known);
/// [low, high] in a field that may be missing; a problem unless 0 <= low <= high.
std::optional<Range> optional_range(const Node& row, std::string_view field);
/// The texts of a list that may be missing.
std::vector<std::string> texts(const Node& row, std::string_view field);
/// A flag that may be missing.
bool flag(const Node& row, std::string_view field, bool otherwise);
/// The elements of a list that must be there.
std::vector<Node> items(const Node& row, std::string_view field);
/// What `read` makes of each row, in order.
template <class Read>
auto read_all(const std::vector<Node>& rows, Read read) {
  std::vector<decltype(read(rows.front()))> result;
  result.reserve(rows.size());
  for (const Node& row : rows) result.push_back(read(row));
  return result;
}
/// A problem at each row whose "id" another row has.
void report_duplicate_ids(const std::vector<Node>& rows);
/// What `read` makes of each row of a file's one list, whose rows have an "id" each.
///
/// Throws: Error with every fault of the text
template <class Read>
auto parse_list(std::string_view text, const std::string& file, const std::string& list,
                Read read) {
  Problems problems;
  const Node root = Node::parse(text, file, problems);
  root.allow_only(std::vector<std::string>{"_about", list});
  const std::vector<Node> rows = items(root, list);
  report_duplicate_ids(rows);
  auto result = read_all(rows, read);
  problems.throw_if_any();
  return result;
}

}  // namespace tub::planning::data_row
