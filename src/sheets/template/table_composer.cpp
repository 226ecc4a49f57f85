// Cells by their contents, chart lines point by point.
#include "sheets/template/table_composer.h"

#include <fmt/format.h>

#include <string>
#include <utility>

#include "base/nearest.h"

namespace tub::sheets {
namespace {

TableColumn compose_column(Composer& composer, const Node& node) {
  Composer::allow_only(node, {"head", "share", "mm", "align", "ruled"});
  TableColumn column;
  column.head = composer.words(node, "head");
  column.share = composer.number(node, "share").value_or(column.share);
  column.mm = composer.number(node, "mm").value_or(column.mm);
  column.is_ruled = composer.flag(node, "ruled");
  if (const auto align = node.find("align")) {
    const std::vector<std::string> names = {"left", "right", "centre"};
    const std::string name = align->one_of(names).value_or("left");
    if (name == "right") column.align = TableColumn::Align::right;
    if (name == "centre") column.align = TableColumn::Align::centre;
  }
  return column;
}

AmountCell compose_amount(Composer& composer, const Node& node) {
  AmountCell cell;
  cell.amount = {composer.text(node, "amount"), composer.text(node, "spoons")};
  cell.limit = composer.text(node, "limit");
  if (composer.flag(node, "spoons_under")) cell.spoons = AmountCell::Spoons::under;
  return cell;
}

PairCell compose_pair(Composer& composer, const Node& node) {
  PairCell cell{composer.text(node, "pair"), PairCell::Severity::apart};
  if (const auto severity = node.find("severity")) {
    const std::vector<std::string> names = {"apart", "harm", "deadly"};
    const std::string name = severity->one_of(names).value_or("apart");
    if (name == "harm") cell.severity = PairCell::Severity::harm;
    if (name == "deadly") cell.severity = PairCell::Severity::deadly;
  }
  return cell;
}

decltype(Cell::content) compose_content(Composer& composer, const Node& node) {
  if (node.find("amount")) return compose_amount(composer, node);
  if (node.find("pair")) return compose_pair(composer, node);
  if (node.find("framed")) return FramedCell{composer.text(node, "framed")};
  if (node.find("signs")) return SignsCell{compose_sign_list(composer, node)};
  if (composer.flag(node, "arrow")) return ArrowCell{};
  if (composer.flag(node, "tick")) return TickCell{};
  return composer.words(node, "text");
}

Cell compose_cell(Composer& composer, const Node& node) {
  Cell cell;
  if (!node.is_object()) {
    cell.content = composer.words(node);
    return cell;
  }
  Composer::allow_only(node, {"text", "amount", "spoons", "limit", "spoons_under", "pair",
                              "severity", "framed", "signs", "arrow", "tick", "columns", "rank"});
  cell.content = compose_content(composer, node);
  cell.rank = compose_rank(node);
  if (const auto columns = node.find("columns")) cell.columns = columns->whole(1, 100).value_or(1);
  return cell;
}

TableRow compose_row(Composer& composer, const Node& node) {
  Composer::allow_only(node, {"role", "cells", "joined"});
  TableRow row;
  row.is_joined = composer.flag(node, "joined");
  if (const auto role = node.find("role")) {
    const std::vector<std::string> names = {"plain", "head", "band", "blank"};
    const std::string name = role->one_of(names).value_or("plain");
    if (name == "head") row.role = TableRow::Role::head;
    if (name == "band") row.role = TableRow::Role::band;
    if (name == "blank") row.role = TableRow::Role::blank;
  }
  composer.items(node, "cells",
                 [&](const Node& item) { row.cells.push_back(compose_cell(composer, item)); });
  return row;
}

Chart::Axis compose_axis(Composer& composer, const Node& node) {
  Composer::allow_only(node, {"name", "low", "high", "step", "decimals"});
  Chart::Axis axis;
  axis.name = composer.words(node, "name");
  axis.low = composer.number(node, "low").value_or(axis.low);
  axis.high = composer.number(node, "high").value_or(axis.high);
  axis.step = composer.number(node, "step").value_or(axis.step);
  axis.decimals = static_cast<int>(composer.number(node, "decimals").value_or(0));
  return axis;
}

Chart::Point compose_point(Composer& composer, const Node& node) {
  return {composer.number(node, "x").value_or(0), composer.number(node, "y").value_or(0)};
}

Chart::Line compose_line(Composer& composer, const Node& node) {
  Composer::allow_only(node, {"name", "points"});
  Chart::Line line{composer.words(node, "name"), {}};
  composer.items(node, "points", [&](const Node& item) {
    Composer::allow_only(item, {"x", "y"});
    line.points.push_back(compose_point(composer, item));
  });
  return line;
}

Chart::Target compose_band(Composer& composer, const Node& node) {
  Composer::allow_only(node, {"name", "low", "high"});
  return {composer.words(node, "name"), composer.number(node, "low").value_or(0),
          composer.number(node, "high").value_or(0)};
}

Chart::Mark compose_mark(Composer& composer, const Node& node) {
  Composer::allow_only(node, {"name", "x", "y"});
  return {composer.words(node, "name"), compose_point(composer, node)};
}

Sign compose_sign(Composer& composer, const Node& node) {
  Composer::allow_only(node, {"sign", "alt"});
  Sign sign;
  sign.alt = composer.text(node, "alt");
  const std::optional<Node> name_node = node.require("sign");
  if (!name_node) return sign;
  const std::string name = text_of(composer.words(*name_node));
  const std::optional<Pictogram> pictogram = pictogram_named(name);
  if (pictogram) sign.pictogram = *pictogram;
  const bool is_given_later = composer.is_checking() && name_node->is_text() &&
                              name_node->shown().find('{') != std::string::npos;
  if (!pictogram && !is_given_later) {
    name_node->problem(fmt::format("no pictogram is called \"{}\"", name),
                       suggestion(name, pictogram_names()));
  }
  return sign;
}

}  // namespace

Rank compose_rank(const Node& node) {
  static const std::vector<std::string> names = {"body",    "heading", "small",
                                                 "product", "reading", "signal"};
  const auto rank = node.find("rank");
  const std::string name = rank ? rank->one_of(names).value_or("body") : "body";
  for (std::size_t i = 0; i < names.size(); ++i) {
    if (names[i] == name) return static_cast<Rank>(i);
  }
  return Rank::body;
}

Table compose_table(Composer& composer, const Node& node) {
  Composer::allow_only(node, {"columns", "rows", "closed"});
  Table table;
  table.is_closed = composer.flag(node, "closed");
  composer.items(node, "columns", [&](const Node& item) {
    table.columns.push_back(compose_column(composer, item));
  });
  composer.items(node, "rows",
                 [&](const Node& item) { table.rows.push_back(compose_row(composer, item)); });
  return table;
}

Chart compose_chart(Composer& composer, const Node& node) {
  Composer::allow_only(node, {"x", "y", "lines", "bands", "marks", "height_mm", "alt"});
  Chart chart;
  if (const auto axis = node.require("x")) chart.x = compose_axis(composer, *axis);
  if (const auto axis = node.require("y")) chart.y = compose_axis(composer, *axis);
  composer.items(node, "lines",
                 [&](const Node& item) { chart.lines.push_back(compose_line(composer, item)); });
  composer.items(node, "bands",
                 [&](const Node& item) { chart.bands.push_back(compose_band(composer, item)); });
  composer.items(node, "marks",
                 [&](const Node& item) { chart.marks.push_back(compose_mark(composer, item)); });
  chart.height_mm = composer.number(node, "height_mm").value_or(chart.height_mm);
  chart.alt = composer.text(node, "alt");
  return chart;
}

std::vector<Sign> compose_sign_list(Composer& composer, const Node& object) {
  std::vector<Sign> signs;
  composer.items(object, "signs",
                 [&](const Node& item) { signs.push_back(compose_sign(composer, item)); });
  return signs;
}

}  // namespace tub::sheets
