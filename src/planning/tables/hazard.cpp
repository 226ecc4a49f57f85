#include "planning/tables/hazard.h"

#include <fmt/format.h>

#include <algorithm>

#include "base/text.h"
#include "planning/tables/data_row.h"

namespace tub::planning {
namespace {

const Names severities = {"deadly", "harmful", "spoils"};

bool is_meant(const Product& product, const std::string& name) {
  return product.id == name || product.in_group(name);
}

/// The pair that a rule makes of two products, first and second as the rule has them.
std::optional<HazardPair> pair_of(const Product& a, const Product& b, const HazardRule& rule) {
  const bool is_direct = is_meant(a, rule.first) && is_meant(b, rule.second);
  const bool is_swapped = is_meant(b, rule.first) && is_meant(a, rule.second);
  if (a.id == b.id || !(is_direct || is_swapped)) return std::nullopt;
  return HazardPair{is_direct ? a.id : b.id, is_direct ? b.id : a.id, rule.code,
                    rule.severity,           rule.hours_apart,        rule.source.text};
}

bool is_same(const HazardPair& a, const HazardPair& b) {
  const bool is_direct = a.first == b.first && a.second == b.second;
  const bool is_swapped = a.first == b.second && a.second == b.first;
  return a.code == b.code && (is_direct || is_swapped);
}

std::size_t rank(const HazardPair& pair) {
  return static_cast<std::size_t>(std::find(severities.begin(), severities.end(), pair.severity) -
                                  severities.begin());
}

HazardRule read_rule(const Node& row) {
  row.allow_only(
      Names{"first", "second", "code", "severity", "hours_apart", "source", "hours_source"});
  HazardRule rule;
  rule.first = data_row::text(row, "first");
  rule.second = data_row::text(row, "second");
  rule.code = data_row::name(row, "code", known_hazard_codes());
  rule.severity = data_row::name(row, "severity", severities);
  rule.hours_apart = data_row::number(row, "hours_apart", 0, 72);
  if (const auto source = row.require("source")) {
    rule.source = read_provenance(*source).value_or(Provenance{});
  }
  if (const auto source = row.find("hours_source")) rule.hours_source = read_provenance(*source);
  if (rule.hours_apart > 0 && !rule.hours_source) {
    row.problem("hours_apart has no source of its own", "add hours_source");
  }
  return rule;
}

}  // namespace

std::span<const std::string> known_hazard_codes() {
  static const Names names = {"chlorine_gas",     "bromine_gas", "explosion", "fire",
                              "violent_reaction", "spits",       "clouds"};
  return names;
}

std::vector<HazardRule> parse_hazard_rules(std::string_view text, const std::string& file) {
  Problems problems;
  const Node root = Node::parse(text, file, problems);
  root.allow_only(Names{"_about", "hazards"});
  std::vector<HazardRule> rules = data_row::read_all(data_row::items(root, "hazards"), read_rule);
  problems.throw_if_any();
  return rules;
}

std::vector<HazardPair> dangerous_pairs(std::span<const ShelfItem> shelf,
                                        std::span<const HazardRule> rules) {
  std::vector<HazardPair> pairs;
  for (const HazardRule& rule : rules) {
    for (std::size_t i = 0; i < shelf.size(); ++i) {
      for (std::size_t j = i + 1; j < shelf.size(); ++j) {
        const auto pair = pair_of(shelf[i].product, shelf[j].product, rule);
        if (!pair) continue;
        const bool is_known = std::any_of(pairs.begin(), pairs.end(),
                                          [&](const auto& known) { return is_same(known, *pair); });
        if (!is_known) pairs.push_back(*pair);
      }
    }
  }
  std::stable_sort(pairs.begin(), pairs.end(),
                   [](const auto& a, const auto& b) { return rank(a) < rank(b); });
  return pairs;
}

}  // namespace tub::planning
