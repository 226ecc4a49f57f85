// Reads the table of stocks.
#include "layout/labels/stock.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <numbers>
#include <optional>

#include "base/node.h"
#include "base/text.h"

namespace tub::layout {
namespace {

const Names stock_fields = {"name",        "width_mm", "height_mm", "grid",
                            "keep_out_mm", "bleed_mm", "frames",    "source"};
const Names frame_fields = {"centre_mm", "side_mm"};
const Names grid_fields = {"columns", "rows",     "label_mm",        "left_mm",
                           "top_mm",  "pitch_mm", "corner_radius_mm"};
constexpr double longest_mm = 2000;
constexpr double shortest_mm = 20;

/// More of an edge is not kept free, nor printed past.
constexpr double widest_edge_mm = 20;
constexpr double widest_bleed_mm = 5;

/// Lengths in the table are rounded to a tenth of a millimetre or finer.
constexpr double grid_within_mm = 0.1;

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
  if (std::max(across, down) > grid_within_mm) {
    row.problem(fmt::format("the labels reach {} mm past the sheet's edge",
                            fixed(std::max(across, down), 2)));
  }
  if (grid.pitch_x_mm < grid.label_width_mm || grid.pitch_y_mm < grid.label_height_mm) {
    row.problem("the labels overlap: the pitch is smaller than the label");
  }
}

double optional_length(const Node& row, std::string_view name, double most) {
  const auto field = row.find(name);
  return field ? field->number(0, most).value_or(0) : 0;
}

void read_edges(const Node& row, Stock& stock) {
  stock.keep_out_mm = optional_length(row, "keep_out_mm", widest_edge_mm);
  stock.bleed_mm = optional_length(row, "bleed_mm", widest_bleed_mm);
  if (stock.keep_out_mm > 0 && stock.bleed_mm > 0) {
    row.problem("a stock either keeps its edges free or is printed past them, not both");
  }
}

/// The frames, which lie on the label with their corners.
std::vector<PreprintedFrame> read_frames(const Node& row, const Stock& label) {
  std::vector<PreprintedFrame> frames;
  const auto field = row.find("frames");
  if (!field) return frames;
  for (const Node& item : field->items()) {
    item.allow_only(frame_fields);
    PreprintedFrame frame;
    read_pair(item, "centre_mm", frame.x_mm, frame.y_mm);
    frame.side_mm = length(item, "side_mm", 5);
    const double half = frame.side_mm / std::numbers::sqrt2;
    const double nearest = std::min(
        {frame.x_mm, frame.y_mm, label.width_mm - frame.x_mm, label.height_mm - frame.y_mm});
    if (nearest < half) item.problem("the frame reaches past the label's edge");
    frames.push_back(frame);
  }
  return frames;
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
  grid.corner_radius_mm = optional_length(row, "corner_radius_mm", 100);
  check_grid(row, grid, stock);
  return grid;
}

Stock read_stock(const Node& row) {
  row.allow_only(stock_fields);
  Stock stock;
  if (const auto name = row.require("name")) stock.name = name->text().value_or("");
  stock.width_mm = length(row, "width_mm", shortest_mm);
  stock.height_mm = length(row, "height_mm", shortest_mm);
  if (const auto source = row.find("source")) source->text();
  if (const auto grid = row.find("grid")) stock.grid = read_grid(*grid, stock);
  read_edges(row, stock);
  stock.frames = read_frames(row, label_of(stock));
  return stock;
}

}  // namespace

std::vector<Stock> read_stocks(std::string_view json, const std::string& file) {
  Problems problems;
  std::vector<Stock> stocks;
  const Node root = Node::parse(json, file, problems);
  const std::vector<Node> rows = root.items();
  if (root.is_array() && rows.empty()) {
    root.problem("the table of stocks is empty",
                 "list a paper or a label to print on, or remove it");
  }
  for (const Node& row : rows) {
    const Stock stock = read_stock(row);
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
  Stock label = stock;
  label.width_mm = stock.grid->label_width_mm;
  label.height_mm = stock.grid->label_height_mm;
  label.grid.reset();
  return label;
}

}  // namespace tub::layout
