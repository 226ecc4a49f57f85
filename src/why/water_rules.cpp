// Readings of a water: counted ones from the water before, the others from its equilibrium.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "chemistry/derivatives.h"
#include "chemistry/measures.h"
#include "why/asking.h"
#include "why/equations.h"
#include "why/grounds.h"
#include "why/judged_rules.h"
#include "why/product_factors.h"
#include "why/rules.h"
#include "why/start_rules.h"

namespace tub::why {
namespace {

constexpr double worth_naming = 0.01;  // of all that moves a reading
constexpr std::size_t most_constants = 4;

bool is_counted(std::string_view key) {
  if (key == "inorganic_carbon_mmol_kg") return true;
  for (const auto& known : reading_keys) {
    if (known.name != key) continue;
    return std::any_of(measures.begin(), measures.end(),
                       [&](const LinearReading& m) { return m.reading == known.member; });
  }
  return false;
}

std::string key_of(Component component) {
  if (component == Component::carbonate) return "inorganic_carbon_mmol_kg";
  for (const LinearReading& measure : measures) {
    if (measure.component != component) continue;
    for (const auto& known : reading_keys) {
      if (known.member == measure.reading) return std::string(known.name);
    }
  }
  return "";
}

/// A constant's own reaction, not what it is built on.
LogK own_log_k(const SpeciesTable& table, std::size_t species) {
  LogK result = table.species()[species].log_k;
  for (const auto& [reaction, number] : table.species()[species].built_on) {
    if (reaction != species) result += own_log_k(table, reaction) * -number;
  }
  return result;
}

Provenance published(const Source& source) {
  if (source.from_memory) return remembered(source.text);
  const bool is_ours = source.text.starts_with("assumption");
  return {is_ours ? Provenance::Kind::assumption : Provenance::Kind::published, source.text};
}

std::string kelvin(Asking& asking, const std::string& water) {
  const std::string id = water + "#kelvin";
  if (asking.has(id)) return id;
  const std::string zero = constant(asking, "0 °C", 273.15, "K", definition("SI"));
  return asking.put(id, "temperature", "K", "sum",
                    {{"temperature", reading_of(asking, water, "temperature_c")}, {"0_°C", zero}});
}

struct Constant {
  std::string name;
  std::string reaction;
  LogK log_k;
  Source source;
  double slope = 0;
};

std::string log_k_node(Asking& asking, const std::string& water, const Constant& constant) {
  const std::string t = kelvin(asking, water);
  const std::string id = fmt::format("log10 K of {} at {}", constant.name, asking.value(t));
  if (asking.has(id)) return id;
  std::vector<Input> inputs = {{"T", t}};
  for (std::size_t i = 0; i < constant.log_k.coefficients.size(); ++i) {
    const double coefficient = constant.log_k.coefficients.at(i);
    if (coefficient == 0) continue;
    const std::string letter(1, static_cast<char>('a' + i));
    inputs.push_back(
        {letter, data_row(asking, fmt::format("species.json: {}/log_k/{}", constant.name, letter),
                          letter, coefficient, "", published(constant.source))});
  }
  return asking.put(id, "log10 K of " + constant.reaction, "log10", "log_k", std::move(inputs));
}

std::vector<Constant> constants_of(const Asking& asking, const NamedWater& water,
                                   std::string_view key, const Derivatives& slopes) {
  std::vector<Constant> all;
  const auto& rows = asking.species.species();
  for (std::size_t s = 0; s < rows.size(); ++s) {
    if (rows[s].reaction.empty()) continue;
    const double slope = slopes.by_constant(s).*member_of(key);
    if (!std::isfinite(slope)) continue;
    all.push_back({rows[s].name, rows[s].reaction, own_log_k(asking.species, s), rows[s].source,
                   std::abs(slope)});
  }
  const auto add_phase = [&](const char* name) {
    const Phase& phase = asking.species.phase(name);
    all.push_back({name, phase.reaction, phase.log_k, phase.source, 1});
  };
  if (key == "saturation_index") add_phase("calcite");
  if (key == "log10_pco2_atm") add_phase("carbon_dioxide");
  static_cast<void>(water);
  std::stable_sort(all.begin(), all.end(),
                   [](const Constant& a, const Constant& b) { return a.slope > b.slope; });
  return all;
}

void add_constants(Asking& asking, const std::string& id, const NamedWater& water,
                   std::string_view key, const Derivatives& slopes, Node& node) {
  const std::vector<Constant> all = constants_of(asking, water, key, slopes);
  double sum = 0;
  for (const Constant& one : all) sum += one.slope;
  for (std::size_t i = 0; i < all.size() && i < most_constants && sum > 0; ++i) {
    const double share = all[i].slope / sum;
    if (share < worth_naming) break;
    node.inputs.push_back({"log10_K_" + all[i].name, log_k_node(asking, id, all[i]), share});
  }
}

/// The totals of the water that move a reading, those that matter as inputs.
void add_totals(Asking& asking, const std::string& id, const NamedWater& water,
                std::string_view key, const Derivatives& slopes, Node& node) {
  std::vector<std::pair<std::string, double>> moved;
  double sum = 0;
  for (std::size_t i = 0; i < component_count; ++i) {
    const auto component = static_cast<Component>(i);
    const double total = water.water.totals[component];
    const std::string name = key_of(component);
    if (total == 0 || name.empty() || name == key) continue;
    const double by = std::abs(slopes.by(component).*member_of(key) * total);
    if (!std::isfinite(by) || by == 0) continue;
    moved.emplace_back(name, by);
    sum += by;
  }
  std::stable_sort(moved.begin(), moved.end(),
                   [](const auto& a, const auto& b) { return a.second > b.second; });
  for (const auto& [name, by] : moved) {
    if (by / sum < worth_naming) {
      node.beside.push_back(id + "/" + name);
    } else {
      node.inputs.push_back({name, reading_of(asking, id, name), by / sum});
    }
  }
}

Node by_equilibrium(Asking& asking, const std::string& id, const std::string& key) {
  const NamedWater& water = water_named(asking, id);
  Node node{"", key, 0, "", "equilibrium", {}};
  const Derivatives slopes(water.water, asking.species);
  add_totals(asking, id, water, key, slopes, node);
  node.inputs.push_back({"temperature", reading_of(asking, id, "temperature_c")});
  add_constants(asking, id, water, key, slopes, node);
  return node;
}

Node in_air(Asking& asking, const std::string& id, const Making& making) {
  Node node{"", "", 0, "", "carbon_in_air", {{"carbon_dioxide", making.by}}};
  for (const char* key : {"total_alkalinity_mg_l", "temperature_c"}) {
    node.inputs.push_back({key, reading_of(asking, id, key)});
  }
  return node;
}

/// What was there and what came in, each part times what a mg of it is worth.
Node by_doses(Asking& asking, const std::string& id, const std::string& key, const Making& making) {
  Node node{"", "", 0, "", "sum", {{"before", reading_of(asking, making.from, key)}}};
  for (const Part& part : making.parts) {
    const std::string each = per_compound(asking, part.formula, key);
    if (each.empty()) continue;
    const std::string change = fmt::format("{}/{}#by_{}", id, key, part.formula);
    node.inputs.push_back({"by_" + part.formula,
                           asking.put(change, "change_by_" + part.formula, unit_of_key(key),
                                      "product", {{"mg_per_litre", part.mg_l}, {"per_mg", each}})});
  }
  const std::string spent = making.spent.empty() ? "" : per_spent(asking, making.sanitizer, key);
  if (!spent.empty()) {
    node.inputs.push_back(
        {"by_what_is_spent",
         asking.put(fmt::format("{}/{}#by_spending", id, key), "change_by_spending",
                    unit_of_key(key), "product", {{"spent", making.spent}, {"per_mg", spent}})});
  }
  if (node.inputs.size() == 1) node.equation = "same";
  return node;
}

/// What neither a product nor the air moves: only another water that is mixed in does.
Node mixed_or_same(Asking& asking, const std::string& key, const Making& making) {
  const std::string before = reading_of(asking, making.from, key);
  if (making.kind != Making::Kind::mixed) return {"", "", 0, "", "same", {{"before", before}}};
  const std::string other = reading_of(asking, making.other, key);
  return {"", "", 0, "", "mix", {{"fraction", making.by}, {"before", before}, {"other", other}}};
}

Node counted(Asking& asking, const std::string& id, const std::string& key, const Making& making) {
  const bool is_carbon = key == "inorganic_carbon_mmol_kg";
  if (making.kind == Making::Kind::dosed || making.kind == Making::Kind::spent) {
    return by_doses(asking, id, key, making);
  }
  if (making.kind == Making::Kind::aired && is_carbon) return in_air(asking, id, making);
  if (making.kind == Making::Kind::lost && is_carbon) {
    const std::string before = reading_of(asking, making.from, key);
    return {"", "", 0, "", "difference", {{"before", before}, {"lost", making.by}}};
  }
  return mixed_or_same(asking, key, making);
}

Node temperature(Asking& asking, const Making& making) {
  if (making.kind == Making::Kind::heated) return same_as(asking, making.by);
  return mixed_or_same(asking, "temperature_c", making);
}

}  // namespace

Node explained_reading(Asking& asking, const std::string& water, const std::string& key) {
  const Making making = water_named(asking, water).making;
  if (making.kind == Making::Kind::same) {
    return {"", "", 0, "", "same", {{"the_same", reading_of(asking, making.from, key)}}};
  }
  if (making.kind == Making::Kind::judged &&
      (is_read_from_slip(key) || key == "inorganic_carbon_mmol_kg")) {
    return judged_reading(asking, key);
  }
  if (making.kind == Making::Kind::slip && is_read_from_slip(key)) {
    return start_reading(asking, water, making.from, key);
  }
  if (making.kind == Making::Kind::slip && key == "inorganic_carbon_mmol_kg") {
    return start_carbon(asking, water);
  }
  if (key == "temperature_c") return temperature(asking, making);
  if (!is_counted(key)) return by_equilibrium(asking, water, key);
  Node node = counted(asking, water, key, making);
  if (const Equation& row = equation(node.equation); row.value != nullptr) {
    std::vector<Term> terms;
    for (const Input& input : node.inputs) terms.emplace_back(input.name, asking.value(input.node));
    // Bromide that meets free chlorine leaves the sum; what is left is said by its name.
    if (!agrees(row.value(terms), number_of(water_named(asking, water).state, key))) {
      node.equation = "oxidation";
    }
  }
  return node;
}

std::string reading_of(Asking& asking, const std::string& water, std::string_view key) {
  const std::string id = fmt::format("{}/{}", water, key);
  if (asking.has(id)) return id;
  if (asking.in_plan().number(id)) return asking.ask(id);
  const double value = number_of(water_named(asking, water).state, key);
  Node node = explained_reading(asking, water, std::string(key));
  node.id = id;
  node.name = key;
  node.unit = unit_of_key(key);
  return asking.put(std::move(node), value);
}

Node explain_water(Asking& asking, const Place& place) {
  const std::size_t cut = place.pointer.rfind('/');
  return explained_reading(asking, place.pointer.substr(0, cut), place.parts.back());
}

}  // namespace tub::why
