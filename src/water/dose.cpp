#include "water/dose.h"

#include <fmt/format.h>

#include "base/nearest.h"
#include "chemistry/dose.h"

namespace tub::water {
namespace {

// A target with the name that it was given.
struct NamedTarget {
  std::string name;
  DoseTarget target;
};

std::optional<DoseTarget> target_named(std::string_view name, double value) {
  for (const auto& key : reading_keys)
    if (key.name == name && key.member != &Readings::temperature_c)
      return DoseTarget{key.member, value};
  for (const auto& key : derived_keys)
    if (key.name == name) return DoseTarget{key.member, value};
  return std::nullopt;
}

std::vector<NamedTarget> read_targets(const Node& to) {
  std::vector<NamedTarget> targets;
  for (const Node::Member& member : to.members()) {
    const auto value = member.value.number();
    const auto target = target_named(member.name, value.value_or(0));
    if (!target) {
      member.value.problem(fmt::format("\"{}\" is no reading that a dose may aim at", member.name),
                           suggestion(member.name, dose_target_names()));
    } else if (value) {
      targets.push_back({member.name, *target});
    }
  }
  return targets;
}

Compounds read_compounds(const Node& list, const SpeciesTable& table) {
  Compounds compounds;
  for (const Node& item : list.items())
    if (const Compound* compound = compound_at(item, table)) compounds.push_back(compound);
  return compounds;
}

std::string amounts(const Compounds& compounds, const std::vector<double>& mg_l) {
  std::string text;
  for (std::size_t i = 0; i < mg_l.size(); ++i)
    text +=
        fmt::format("{}\"{}\":{}", i == 0 ? "" : ",", compounds[i]->formula, json_number(mg_l[i]));
  return "{" + text + "}";
}

std::string_view code_of(Unreachable why) {
  switch (why) {
    case Unreachable::moves_away:
      return "moves_away";
    case Unreachable::levels_off:
      return "levels_off";
    case Unreachable::not_changed:
      return "not_changed";
    case Unreachable::not_together:
      return "not_together";
  }
  return "";
}

// {"ph": 8.29, "at_mg_l": {"NaHCO3": 20000}, "why": "levels_off"}; the nearest readings first.
std::string unreachable(const DoseAnswer& answer, const Compounds& compounds,
                        const std::vector<NamedTarget>& targets) {
  std::string text = "{";
  for (std::size_t i = 0; i < answer.readings.size(); ++i)
    text += fmt::format("\"{}\":{},", targets[i].name, json_number(answer.readings[i]));
  return text + fmt::format("\"at_mg_l\":{},\"why\":\"{}\"}}", amounts(compounds, answer.mg_l),
                            code_of(answer.why));
}

std::string wrong_side(const NamedTarget& target, const Compound& compound, double nearest) {
  return fmt::format("{} of {} is on the wrong side: {} moves it away from there, from {}",
                     target.name, json_number(target.target.value), compound.formula,
                     json_number(nearest));
}

}  // namespace

std::vector<std::string> dose_target_names() {
  std::vector<std::string> names;
  for (const auto& key : reading_keys)
    if (key.member != &Readings::temperature_c) names.emplace_back(key.name);
  for (const auto& key : derived_keys) names.emplace_back(key.name);
  return names;
}

std::optional<WaterStep> read_dose(const Node& step, const WaterReading& reading) {
  const auto list = step.require("dose");
  const auto to = step.require("to");
  if (!list || !to) return std::nullopt;
  const std::size_t wanted = list->items().size();
  const Compounds compounds = read_compounds(*list, reading.table);
  const std::vector<NamedTarget> targets = read_targets(*to);
  if (compounds.size() != wanted || targets.size() != to->members().size()) return std::nullopt;
  if (wanted < 1 || wanted > 2 || targets.size() != wanted) {
    step.problem(fmt::format("{} compounds cannot meet {} targets", wanted, targets.size()),
                 "give one compound and one target, or two of each");
    return std::nullopt;
  }
  const SpeciesTable& table = reading.table;
  return [=, &table](const Water& water) {
    std::vector<DoseTarget> plain;
    plain.reserve(targets.size());
    for (const NamedTarget& target : targets) plain.push_back(target.target);
    const DoseAnswer answer = dose_to(water, compounds, plain, table);
    if (answer.is_reached)
      return StepOutcome{with_doses(water, compounds, answer.mg_l),
                         {{"dosed_mg_l", amounts(compounds, answer.mg_l)}},
                         ""};
    const bool is_wrong_side = answer.why == Unreachable::moves_away;
    return StepOutcome{
        water,
        {{"unreachable", unreachable(answer, compounds, targets)}},
        is_wrong_side ? wrong_side(targets[0], *compounds[0], answer.readings[0]) : std::string()};
  };
}

}  // namespace tub::water
