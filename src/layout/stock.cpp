// Reads the table of stocks.
#include "layout/stock.h"

#include <optional>

#include "base/node.h"

namespace tub {

std::vector<Stock> read_stocks(std::string_view json, const std::string& file) {
  static const std::vector<std::string> known = {"name", "width_mm", "height_mm"};
  Problems problems;
  std::vector<Stock> stocks;
  for (const Node& row : Node::parse(json, file, problems).items()) {
    row.allow_only(known);
    Stock stock;
    if (const auto name = row.require("name")) stock.name = name->text().value_or("");
    if (const auto width = row.require("width_mm")) {
      stock.width_mm = width->number(20, 2000).value_or(0);
    }
    if (const auto height = row.require("height_mm")) {
      stock.height_mm = height->number(20, 2000).value_or(0);
    }
    stocks.push_back(stock);
  }
  problems.throw_if_any();
  return stocks;
}

}  // namespace tub
