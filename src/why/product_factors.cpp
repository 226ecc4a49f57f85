#include "why/product_factors.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "chemistry/measures.h"
#include "why/asking.h"
#include "why/equations.h"
#include "why/grounds.h"
#include "why/judged_rules.h"

namespace tub::why {
namespace {

Provenance weights() { return remembered("IUPAC abridged standard atomic weights"); }

/// The component that a reading counts and what a mole of it counts as.
struct Counted {
  Component component = Component::carbonate;
  double grams = 1;
  std::string formula;
};

std::optional<Counted> counted_by(const std::string& key) {
  if (key == "inorganic_carbon_mmol_kg") return Counted{Component::carbonate, 1, ""};
  for (const LinearReading& measure : measures) {
    for (const auto& known : reading_keys) {
      if (known.name != key || known.member != measure.reading) continue;
      std::string formula(measure.formula);
      if (measure.divisor != 1) formula = fmt::format("{}/{}", formula, measure.divisor);
      return Counted{measure.component, measure.grams_per_mole, formula};
    }
  }
  return std::nullopt;
}

std::string molar_mass(Asking& asking, const std::string& formula, double grams) {
  return constant(asking, "molar mass of " + formula, grams, "g/mol", weights());
}

/// moles × what a mole counts as / molar mass of what brings them.
std::string stoichiometry(Asking& asking, const std::string& id, double moles,
                          const Counted& counted, const std::string& mass_of) {
  const std::string per_mole = constant(asking, id + " (moles)", moles, "mol/mol",
                                        definition("the formula, and what it becomes in water"));
  const std::string name = "per_mg";
  if (counted.formula.empty()) {
    return asking.put(id, name, "mmol/mg", "quotient",
                      {{"moles_per_mole", per_mole}, {"molar_mass", mass_of}});
  }
  return asking.put(id, name, "mg/mg", "amount_for",
                    {{"moles_per_mole", per_mole},
                     {"mass_counted", molar_mass(asking, counted.formula, counted.grams)},
                     {"molar_mass", mass_of}});
}

bool has_own(const Asking& asking, const std::string& product, const char* field) {
  const std::string shelf = shelf_pointer(asking, product);
  return !shelf.empty() && asking.in_job().has(shelf + "/" + field);
}

std::string strength(Asking& asking, const Product& product) {
  const std::string& unit = product.strengths.front().name;
  return product_row(asking, product, "strength", product.strength, unit);
}

/// The strength over that of the pure compound, by mass or by volume; empty if it is neither.
std::vector<Input> first_fraction_inputs(Asking& asking, const Product& product) {
  if (product.strengths.empty()) return {};
  const Product::StrengthBasis& basis = product.strengths.front();
  const bool is_by_volume = basis.per == Product::StrengthBasis::Per::volume;
  const double density = is_by_volume ? product.density_g_ml.value_or(1) : 1;
  const double fraction = product.strength / basis.per_mass_fraction / density;
  if (!agrees(fraction, product.parts.front().mass_fraction)) return {};
  const std::string whole =
      constant(asking, fmt::format("{} in pure {}", basis.name, product.parts.front().formula),
               basis.per_mass_fraction, basis.name,
               definition("100 × mass of what is counted / molar mass"));
  std::vector<Input> inputs = {{"strength", strength(asking, product)},
                               {"strength_if_pure", whole}};
  if (is_by_volume) {
    inputs.push_back({"density", product_row(asking, product, "density", density, "g/mL")});
  }
  return inputs;
}

/// What goes with the first part mole for mole; empty if its share is fixed.
std::vector<Input> companion_inputs(Asking& asking, const Product& product,
                                    const Product::Part& part) {
  const Product::Part& first = product.parts.front();
  const double ratio = part.moles_per_first * part.molar_mass / first.molar_mass;
  if (!agrees(first.mass_fraction * ratio, part.mass_fraction) || ratio == 0) return {};
  const std::string name =
      fmt::format("{} beside {} in {}", part.formula, first.formula, product.id);
  const std::string moles = constant(asking, name + " (moles)", part.moles_per_first, "mol/mol",
                                     definition("how it is made"));
  const std::string masses =
      asking.put(name, "mass_ratio", "g/g", "amount_for",
                 {{"moles", moles},
                  {"molar_mass", molar_mass(asking, part.formula, part.molar_mass)},
                  {"molar_mass_of_first", molar_mass(asking, first.formula, first.molar_mass)}});
  return {{"first", mass_fraction(asking, product, first.formula)}, {"mass_ratio", masses}};
}

/// The product as the job states it, where retests have judged it weaker or stronger; else null.
const Product* as_stated(const Asking& asking, const Product& product) {
  for (const ShelfItem& item : asking.job.request.shelf) {
    const bool is_it =
        item.product.id == product.id && &item.product != &product && !item.product.parts.empty();
    if (!is_it || asking.situation.resumption() == nullptr) continue;
    const double stated = item.product.parts.front().mass_fraction;
    if (!agrees(stated, product.parts.front().mass_fraction)) return &item.product;
  }
  return nullptr;
}

}  // namespace

std::string shelf_pointer(const Asking& asking, const std::string& product) {
  for (std::size_t i = 0; i < asking.request.shelf.size(); ++i) {
    const std::string pointer = fmt::format("/shelf/{}", i);
    if (asking.in_job().text(pointer) == product) return pointer;
    if (asking.in_job().text(pointer + "/product") == product) return pointer;
  }
  return "";
}

std::string product_row(Asking& asking, const Product& product, const std::string& field,
                        double value, const std::string& unit) {
  if (has_own(asking, product.id, field.c_str())) {
    const std::string at = shelf_pointer(asking, product.id) + "/" + field;
    Origin origin{Ground::job, at, asking.in_job().text(at).value_or("")};
    return asking.put(Node{"job:" + at, field, value, unit, "given", {}, origin}, value);
  }
  const auto source = product.sources.find(field);
  return data_row(asking, fmt::format("products.json: {}/{}", product.id, field), field, value,
                  unit,
                  source == product.sources.end() ? definition("composition") : source->second);
}

std::string mass_fraction(Asking& asking, const Product& product, const std::string& formula) {
  const auto part = std::find_if(product.parts.begin(), product.parts.end(),
                                 [&](const auto& one) { return one.formula == formula; });
  if (const Product* const stated = as_stated(asking, product)) {
    Node node = judged_value(asking, mass_fraction(asking, *stated, formula));
    node.id = fmt::format("{} in {}, judged", formula, product.id);
    node.name = "mass_fraction_judged";
    node.unit = "g/g";
    return asking.put(std::move(node), part->mass_fraction);
  }
  const std::string id = fmt::format("{} in {}", formula, product.id);
  const std::vector<Input> inputs = part == product.parts.begin()
                                        ? first_fraction_inputs(asking, product)
                                        : companion_inputs(asking, product, *part);
  if (!inputs.empty()) {
    const std::string equation = part == product.parts.begin() ? "quotient" : "product";
    return asking.put(id, "mass_fraction", "g/g", equation, inputs, part->mass_fraction);
  }
  Node node{id, "mass_fraction", part->mass_fraction, "g/g", "given", {}};
  node.origin =
      Origin{Ground::data_row, fmt::format("products.json: {}/parts/{}", product.id, formula)};
  const auto source = product.sources.find("composition");
  if (source != product.sources.end()) node.origin->source = source->second;
  return asking.put(std::move(node), part->mass_fraction);
}

std::string per_compound(Asking& asking, const std::string& formula, const std::string& key) {
  const auto counted = counted_by(key);
  const Compound& compound = asking.species.compound(formula);
  if (!counted || compound.adds[counted->component] == 0) return "";
  return stoichiometry(asking, fmt::format("{} per mg of {}", key, formula),
                       compound.adds[counted->component], *counted,
                       molar_mass(asking, formula, compound.molar_mass));
}

std::string per_product(Asking& asking, const Product& product, const std::string& key) {
  std::vector<Input> parts;
  for (const Product::Part& part : product.parts) {
    const std::string each = per_compound(asking, part.formula, key);
    if (each.empty()) continue;
    const std::string id = fmt::format("{} by {} per mg of {}", key, part.formula, product.id);
    parts.push_back(
        {part.formula, asking.put(id, "per_mg_by_part", "mg/mg", "product",
                                  {{"mass_fraction", mass_fraction(asking, product, part.formula)},
                                   {"per_mg_of_compound", each}})});
  }
  if (parts.empty()) {
    return constant(asking, fmt::format("{} per mg of {}", key, product.id), 0, "mg/mg",
                    definition("it has nothing that this counts"));
  }
  return asking.put(fmt::format("{} per mg of {}", key, product.id), "per_mg_of_product", "mg/mg",
                    "sum", std::move(parts));
}

std::string per_spent(Asking& asking, Reading sanitizer, const std::string& key) {
  const auto counted = counted_by(key);
  if (!counted) return "";
  const bool is_bromine = sanitizer == Reading::total_bromine;
  const Component oxidant = is_bromine ? Component::bromine : Component::chlorine;
  const Component becomes = is_bromine ? Component::bromide : Component::chloride;
  const bool is_taken =
      counted->component == oxidant || counted->component == Component::alkalinity;
  if (!is_taken && counted->component != becomes) return "";
  const std::string formula = is_bromine ? "Br2" : "Cl2";
  return stoichiometry(asking, fmt::format("{} per mg of {} spent", key, formula),
                       is_taken ? -1 : 1, *counted,
                       molar_mass(asking, formula, grams_per_mole(oxidant)));
}

std::string mg_per_size(Asking& asking, const Supply& supply) {
  const Product& product = supply.product();
  const std::string milli = constant(asking, "mg per g", 1000, "mg/g", definition("SI"));
  if (product.form != Form::liquid) return milli;
  const std::string density =
      product.density_g_ml ? product_row(asking, product, "density", *product.density_g_ml, "g/mL")
                           : constant(asking, "density of water", 1, "g/mL",
                                      assumed_by_us("a liquid without a density of its own"));
  return asking.put("mg per mL of " + product.id, "mg_per_ml", "mg/mL", "product",
                    {{"mg_per_g", milli}, {"density", density}});
}

}  // namespace tub::why
