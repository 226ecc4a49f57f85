#include "planning/tables/sanitizer_row.h"

#include <fmt/format.h>

#include <algorithm>

#include "base/error.h"
#include "base/nearest.h"
#include "base/text.h"
#include "planning/tables/data_row.h"

namespace tub::planning {
namespace {

Names texts(const Node& row, std::string_view field) {
  Names result;
  const std::optional<Node> list = row.find(field);
  if (!list) return result;
  for (const Node& item : list->items()) result.push_back(item.text().value_or(""));
  return result;
}

SanitizerRow read_sanitizer_row(const Node& row) {
  row.allow_only(
      Names{"id", "about", "reading", "products", "bank", "then", "instead", "at_once", "source"});
  SanitizerRow result;
  result.id = data_row::text(row, "id");
  result.about = data_row::text(row, "about");
  const Names readings = {"free_chlorine", "total_bromine"};
  const std::string reading = data_row::name(row, "reading", readings);
  result.reading = reading_named(reading).value_or(Reading::free_chlorine);
  result.products = texts(row, "products");
  if (result.products.empty()) row.problem("no product makes this sanitizer", "name one");
  result.bank = texts(row, "bank");
  result.then = texts(row, "then");
  result.instead = texts(row, "instead");
  result.at_once = texts(row, "at_once");
  if (const auto source = row.require("source")) {
    result.source = read_provenance(*source).value_or(Provenance{});
  }
  return result;
}

}  // namespace

std::vector<std::string> SanitizerRow::all_products() const {
  Names all;
  for (const Names* list : {&products, &bank, &then, &instead, &at_once}) {
    for (const std::string& product : *list) {
      if (std::find(all.begin(), all.end(), product) == all.end()) all.push_back(product);
    }
  }
  return all;
}

std::vector<SanitizerRow> parse_sanitizers(std::string_view text, const std::string& file) {
  return data_row::parse_list(text, file, "sanitizers", read_sanitizer_row);
}

const SanitizerRow& sanitizer_row(const std::vector<SanitizerRow>& rows, std::string_view kind) {
  const auto found = std::find_if(rows.begin(), rows.end(),
                                  [&](const SanitizerRow& row) { return row.id == kind; });
  if (found != rows.end()) return *found;
  Names known;
  for (const SanitizerRow& row : rows) known.push_back(row.id);
  throw Error({fmt::format("there is no sanitizer \"{}\"", kind), "", {}, suggestion(kind, known)});
}

}  // namespace tub::planning
