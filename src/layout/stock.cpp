// Reads the table of stocks.
#include "layout/stock.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <optional>

#include "base/node.h"
#include "base/text.h"

namespace tub {
namespace {

using Names = std::vector<std::string>;

const Names stock_fields = {"name", "width_mm", "height_mm", "grid", "source"};
const Names grid_fields = {"columns", "rows",     "label_mm",        "left_mm",
                           "top_mm",  "pitch_mm", "corner_radius_mm"};
constexpr double longest_mm = 2000;
constexpr double shortest_mm = 20;

/// Lengths in the table are rounded to a tenth of a millimetre or finer.
constexpr double rounding_mm = 0.1;

double length(const Node& row, std::string_view name, double least) {
  const auto field = row.require(name);
  return field ? field->number(least, longest_mm).value_or(0) : 0;
}

/// Two lengths, across and down.
void read_pair(const Node& row, std::string_view name, double& across, double& down) {
  const auto field = row.require(name);
  const std::vector<Node> ends = field ? field->items() : std::vector<Node>{};
  if (field && ends.size() != 2) field->problem("expected [across, down] in millimetres");
  if (ends.size() != 2) return;
  across = ends.front().number(1, longest_mm).value_or(0);
  down = ends.back().number(1, longest_mm).value_or(0);
}

int count(const Node& row, std::string_view name) {
  const auto field = row.require(name);
  return field ? field->whole(1, 100).value_or(1) : 1;
}

/// By how much so many labels with that pitch reach past the sheet.
double past_edge(double margin, int labels, double pitch, double label, double sheet) {
  return margin + (labels - 1) * pitch + label - sheet;
}

void check_grid(const Node& row, const LabelGrid& grid, const Stock& stock) {
  const double across =
      past_edge(grid.left_mm, grid.columns, grid.pitch_x_mm, grid.label_width_mm, stock.width_mm);
  const double down =
      past_edge(grid.top_mm, grid.rows, grid.pitch_y_mm, grid.label_height_mm, stock.height_mm);
  if (std::max(across, down) > rounding_mm) {
    row.problem(fmt::format("the labels reach {} mm past the sheet's edge",
                            fixed(std::max(across, down), 2)));
  }
  if (grid.pitch_x_mm < grid.label_width_mm || grid.pitch_y_mm < grid.label_height_mm) {
    row.problem("the labels overlap: the pitch is smaller than the label");
  }
}

LabelGrid read_grid(const Node& row, const Stock& stock) {
  row.allow_only(grid_fields);
  LabelGrid grid;
  grid.columns = count(row, "columns");
  grid.rows = count(row, "rows");
  read_pair(row, "label_mm", grid.label_width_mm, grid.label_height_mm);
  grid.left_mm = length(row, "left_mm", 0);
  grid.top_mm = length(row, "top_mm", 0);
  read_pair(row, "pitch_mm", grid.pitch_x_mm, grid.pitch_y_mm);
  if (const auto radius = row.find("corner_radius_mm")) {
    grid.corner_radius_mm = radius->number(0, 100).value_or(0);
  }
  check_grid(row, grid, stock);
  return grid;
}

}  // namespace

std::vector<Stock> read_stocks(std::string_view json, const std::string& file) {
  Problems problems;
  std::vector<Stock> stocks;
  for (const Node& row : Node::parse(json, file, problems).items()) {
    row.allow_only(stock_fields);
    Stock stock;
    if (const auto name = row.require("name")) stock.name = name->text().value_or("");
    stock.width_mm = length(row, "width_mm", shortest_mm);
    stock.height_mm = length(row, "height_mm", shortest_mm);
    if (const auto source = row.find("source")) source->text();
    if (const auto grid = row.find("grid")) stock.grid = read_grid(*grid, stock);
    const auto is_same = [&](const Stock& other) { return other.name == stock.name; };
    if (std::any_of(stocks.begin(), stocks.end(), is_same)) {
      row.problem(fmt::format("the stock {} stands twice", stock.name));
    }
    stocks.push_back(stock);
  }
  problems.throw_if_any();
  return stocks;
}

Stock label_of(const Stock& stock) {
  if (!stock.grid) return stock;
  return {.name = stock.name,
          .width_mm = stock.grid->label_width_mm,
          .height_mm = stock.grid->label_height_mm};
}

}  // namespace tub
