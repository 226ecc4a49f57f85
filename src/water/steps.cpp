#include "water/steps.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "base/nearest.h"
#include "base/text.h"
#include "chemistry/measures.h"
#include "chemistry/precipitate.h"
#include "water/dose.h"

namespace tub::water {
namespace {

using Read = std::optional<WaterStep>;

constexpr double coldest_c = 0;
constexpr double hottest_c = 50;

WaterStep plain(std::function<Water(const Water&)> change) {
  return [change = std::move(change)](const Water& water) {
    return StepOutcome{change(water), {}, ""};
  };
}

Read read_add(const Node& step, const WaterReading& reading) {
  const auto formula_node = step.require("add");
  const auto amount_node = step.require("mg_l");
  const auto formula = formula_node ? formula_node->text() : std::nullopt;
  const auto mg_l = amount_node ? amount_node->number(0, 1e5) : std::nullopt;
  if (!formula || !mg_l) return std::nullopt;
  const Compound* compound = compound_at(*formula_node, reading.table);
  if (compound == nullptr) return std::nullopt;
  return plain([=](const Water& water) { return add(water, *compound, *mg_l); });
}

Read read_heat(const Node& step, const WaterReading&) {
  const auto to_c = step.require("heat_to_c")->number(coldest_c, hottest_c);
  if (!to_c) return std::nullopt;
  return plain([=](const Water& water) { return heat(water, celsius(*to_c)); });
}

Read read_equilibrate(const Node& step, const WaterReading& reading) {
  const auto target = step.require("equilibrate_log10_pco2_atm")->number(-10, 0);
  if (!target) return std::nullopt;
  const SpeciesTable& table = reading.table;
  return [=, &table](const Water& water) {
    const Water after = exchange_carbon_dioxide(water, *target, table);
    const double lost = water.totals[Component::carbonate] - after.totals[Component::carbonate];
    const double grams = table.component(Component::carbonate).molar_mass;
    return StepOutcome{after, {{"carbon_dioxide_lost_mg_l", json_number(lost * grams * 1e3)}}, ""};
  };
}

Read read_blend(const Node& step, const WaterReading& reading) {
  const auto other_node = step.require("blend_with");
  const auto fraction_node = step.require("fraction");
  const auto readings = read_start(*other_node, {"balance"});
  const auto fraction = fraction_node ? fraction_node->number(0, 1) : std::nullopt;
  const Balance balance = read_balance(*other_node, reading.balance);
  if (!readings || !fraction) return std::nullopt;
  const SpeciesTable& table = reading.table;
  const Activities activities = reading.activities;
  return plain([=, &table](const Water& water) {
    return blend(water, water_from_readings(*readings, balance, table, activities), *fraction);
  });
}

Read read_precipitate(const Node& step, const WaterReading& reading) {
  const auto target = step.require("precipitate_to_saturation_index")->number(-5, 5);
  if (!target) return std::nullopt;
  const SpeciesTable& table = reading.table;
  return [=, &table](const Water& water) {
    const Precipitation after = precipitate(water, *target, table);
    const double mg_l = after.moles * grams_per_mole(Component::calcium) * 1e3;
    return StepOutcome{after.water, {{"precipitated_mg_l", json_number(mg_l)}}, ""};
  };
}

// `"name": "all"`.
template <Water spend_all(const Water&)>
Read read_spend_all(const Node& value) {
  if (!value.one_of(std::vector<std::string>{"all"})) return std::nullopt;
  return plain(spend_all);
}

// `"name_mg_l": 1.5`.
template <Water spend(const Water&, double)>
Read read_spend(const Node& value) {
  const auto mg_l = value.number(0, 1e5);
  if (!mg_l) return std::nullopt;
  return plain([=](const Water& water) { return spend(water, *mg_l); });
}

std::vector<StepRule> make_rules() {
  return {
      {"add", {"add", "mg_l"}, read_add},
      {"heat_to_c", {"heat_to_c"}, read_heat},
      {"equilibrate_log10_pco2_atm", {"equilibrate_log10_pco2_atm"}, read_equilibrate},
      {"blend_with", {"blend_with", "fraction"}, read_blend},
      {"dose", {"dose", "to"}, read_dose},
      {"precipitate_to_saturation_index", {"precipitate_to_saturation_index"}, read_precipitate},
      {"spend_free_chlorine",
       {"spend_free_chlorine"},
       [](const Node& step, const WaterReading&) {
         return read_spend_all<spend_all_free_chlorine>(*step.require("spend_free_chlorine"));
       }},
      {"spend_free_chlorine_mg_l",
       {"spend_free_chlorine_mg_l"},
       [](const Node& step, const WaterReading&) {
         return read_spend<spend_free_chlorine>(*step.require("spend_free_chlorine_mg_l"));
       }},
      {"spend_total_bromine",
       {"spend_total_bromine"},
       [](const Node& step, const WaterReading&) {
         return read_spend_all<spend_all_total_bromine>(*step.require("spend_total_bromine"));
       }},
      {"spend_total_bromine_mg_l",
       {"spend_total_bromine_mg_l"},
       [](const Node& step, const WaterReading&) {
         return read_spend<spend_total_bromine>(*step.require("spend_total_bromine_mg_l"));
       }},
      {"spend_oxidizer",
       {"spend_oxidizer"},
       [](const Node& step, const WaterReading&) {
         return read_spend_all<spend_all_oxidizer>(*step.require("spend_oxidizer"));
       }},
      {"spend_oxidizer_mg_l",
       {"spend_oxidizer_mg_l"},
       [](const Node& step, const WaterReading&) {
         return read_spend<spend_oxidizer>(*step.require("spend_oxidizer_mg_l"));
       }},
  };
}

std::vector<std::string> step_names() {
  std::vector<std::string> names;
  for (const StepRule& rule : step_rules()) names.push_back(rule.name);
  return names;
}

}  // namespace

const std::vector<StepRule>& step_rules() {
  static const std::vector<StepRule> rules = make_rules();
  return rules;
}

std::optional<WaterStep> read_step(const Node& step, const WaterReading& reading) {
  for (const StepRule& rule : step_rules())
    if (step.find(rule.name)) {
      step.allow_only(rule.fields);
      return rule.read(step, reading);
    }
  const std::vector<Node::Member> members = step.members();
  const std::vector<std::string> names = step_names();
  if (members.empty()) {
    if (step.is_object()) step.problem("the step says nothing", suggestion("", names));
  } else {
    members.front().value.problem(
        fmt::format("\"{}\" is no step that is known", members.front().name),
        suggestion(members.front().name, names));
  }
  return std::nullopt;
}

const Compound* compound_at(const Node& node, const SpeciesTable& table) {
  try {
    return &table.compound(node.text().value_or(""));
  } catch (const Error& error) {
    for (const Diagnostic& d : error.diagnostics()) node.problem(d.message, d.help);
    return nullptr;
  }
}

std::optional<Readings> read_start(const Node& node, const std::vector<std::string>& also) {
  std::vector<std::string> known = also;
  for (const auto& key : reading_keys) known.emplace_back(key.name);
  if (!node.is_object()) {
    node.problem(fmt::format("expected an object with a start state, found {}", node.shown()));
    return std::nullopt;
  }
  node.allow_only(known);
  Readings readings;
  bool is_whole = node.require("temperature_c") && node.require("ph");
  for (const auto& key : reading_keys)
    if (const auto value = node.find(key.name)) {
      const auto number = value->number(key.low, key.high);
      is_whole = is_whole && number;
      readings.*key.member = number.value_or(0);
    }
  if (!is_whole) return std::nullopt;
  return readings;
}

Balance read_balance(const Node& node, Balance otherwise) {
  const auto value = node.find("balance");
  if (!value) return otherwise;
  const auto name = value->one_of(std::vector<std::string>{"sodium", "chloride", "none"});
  if (name == "chloride") return Balance::chloride;
  if (name == "none") return Balance::none;
  return Balance::sodium;
}

std::string json_number(double value) {
  if (!std::isfinite(value)) return "null";
  return shortest(value == 0 ? 0 : value);
}

}  // namespace tub::water
