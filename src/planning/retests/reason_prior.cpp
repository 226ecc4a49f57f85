#include "planning/retests/reason_prior.h"

#include <algorithm>
#include <array>

#include "base/text.h"
#include "planning/tables/data_row.h"

namespace tub::planning {
namespace {

const Names reasons = {"volume", "weak_product", "carbon_dioxide_lost", "demand"};
constexpr double most = 1e4;

std::vector<std::string> read_products(const Node& row) {
  std::vector<std::string> products;
  for (const Node& item : data_row::items(row, "products")) {
    if (const auto product = item.text()) products.push_back(*product);
  }
  return products;
}

ReasonPrior read_prior(const Node& row) {
  row.allow_only(
      Names{"reason", "products", "often", "how_far", "unit", "plausible", "known_to", "source"});
  ReasonPrior prior;
  prior.reason = data_row::name(row, "reason", reasons);
  if (prior.reason == "weak_product") prior.products = read_products(row);
  prior.often = data_row::number(row, "often", 1e-6, 1);
  prior.how_far = data_row::number(row, "how_far", 1e-6, most);
  prior.unit = data_row::text(row, "unit");
  if (row.require("plausible")) {
    prior.plausible = data_row::optional_range(row, "plausible").value_or(Range{});
  }
  prior.known_to = data_row::optional_number(row, "known_to", 0, most).value_or(0);
  if (const auto source = row.require("source")) {
    prior.source = read_provenance(*source).value_or(Provenance{});
  }
  return prior;
}

}  // namespace

std::vector<ReasonPrior> read_reason_priors(const Node& table) {
  std::vector<ReasonPrior> priors;
  for (const Node& row : table.items()) priors.push_back(read_prior(row));
  for (const std::string& reason : reasons) {
    const auto is_of_it = [&](const ReasonPrior& row) { return row.reason == reason; };
    if (std::none_of(priors.begin(), priors.end(), is_of_it)) {
      table.problem("no row is about \"" + reason + "\"", "add one");
    }
  }
  return priors;
}

const ReasonPrior* prior_of(std::span<const ReasonPrior> rows, std::string_view reason,
                            std::string_view product) {
  for (const ReasonPrior& row : rows) {
    if (row.reason != reason) continue;
    const auto& of = row.products;
    if (of.empty() || std::find(of.begin(), of.end(), product) != of.end()) return &row;
  }
  return nullptr;
}

}  // namespace tub::planning
