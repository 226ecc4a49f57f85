// Reads the species file: every constant with its reaction, source and range.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "base/node.h"
#include "chemistry/reaction.h"
#include "chemistry/species_table.h"

namespace tub::chemistry {
namespace {

constexpr double joules_per_mole_kelvin = 8.314462618;  // exact by the SI of 2019
constexpr double reference_kelvin = 298.15;

const std::vector<std::string> log_k_terms = {"1", "T", "1/T", "log10(T)", "1/T^2", "T^2"};

// log K(T) = log K(25 °C) - ΔH/(R ln 10) (1/T - 1/298.15), the van 't Hoff equation.
LogK van_t_hoff(double at_25c, double enthalpy_kj_mol) {
  const double slope = -enthalpy_kj_mol * 1e3 / (joules_per_mole_kelvin * std::log(10.0));
  LogK log_k;
  log_k.coefficients = {at_25c - slope / reference_kelvin, 0, slope, 0, 0, 0};
  return log_k;
}

LogK read_log_k(const Node& node) {
  if (const auto at_25c = node.find("at_25c")) {
    node.allow_only(std::vector<std::string>{"at_25c", "enthalpy_kj_mol"});
    const auto enthalpy = node.find("enthalpy_kj_mol");
    return van_t_hoff(at_25c->number().value_or(0), enthalpy ? enthalpy->number().value_or(0) : 0);
  }
  node.allow_only(log_k_terms);
  LogK log_k;
  for (std::size_t i = 0; i < log_k_terms.size(); ++i)
    if (const auto term = node.find(log_k_terms[i]))
      log_k.coefficients[i] = term->number().value_or(0);
  return log_k;
}

ActivityModel read_activity(const Node& node) {
  if (node.is_text()) {
    node.one_of(std::vector<std::string>{"davies"});
    return {};
  }
  if (const auto slope = node.find("neutral"))
    return {ActivityModel::Kind::neutral, 0, slope->number().value_or(0)};
  const auto size = node.require("ion_size_angstrom");
  const auto b = node.require("b");
  return {ActivityModel::Kind::ion_size, size ? size->number(1, 20).value_or(0) : 0,
          b ? b->number().value_or(0) : 0};
}

Source read_source(const Node& row) {
  Source source;
  if (const auto text = row.require("source")) source.text = text->text().value_or("");
  if (const auto range = row.require("range_c"); range && range->items().size() == 2) {
    source.low_c = range->items()[0].number().value_or(0);
    source.high_c = range->items()[1].number().value_or(0);
  }
  if (const auto spread = row.find("spread")) source.spread = spread->number(0, 5).value_or(0);
  if (const auto per_c = row.find("spread_per_c"))
    source.spread_per_c = per_c->number(0, 1).value_or(0);
  if (const auto memory = row.find("from_memory"))
    source.from_memory = memory->boolean().value_or(false);
  return source;
}

Interval read_range(const Node& node) {
  const auto at = [&](std::string_view name) {
    const auto member = node.require(name);
    return member ? member->number(0, 1e6).value_or(0) : 0.0;
  };
  return {at("low"), at("value"), at("high")};
}

}  // namespace

// Builds the table row by row; a row may use the species of the rows before it.
class SpeciesReader {
 public:
  explicit SpeciesReader(const Node& root) : root_(root) {}

  SpeciesTable read() {
    with("elements", [&](const Node& node) { read_elements(node); });
    rows("components", [&](const Node& row) { read_component(row); });
    rows("species", [&](const Node& row) { read_species(row); });
    rows("phases", [&](const Node& row) { read_phase(row); });
    rows("compounds", [&](const Node& row) { read_compound(row); });
    with("conductivity", [&](const Node& node) { read_conductivity(node); });
    with("gas_exchange", [&](const Node& node) { read_gas_exchange(node); });
    check_components();
    if (table_.species_.size() > max_species)
      root_.problem(fmt::format("there are more than {} species", max_species));
    return std::move(table_);
  }

 private:
  template <class Use>
  void with(std::string_view name, Use use) {
    if (const auto node = root_.require(name)) use(*node);
  }

  template <class Use>
  void rows(std::string_view name, Use use) {
    with(name, [&](const Node& list) {
      for (const Node& row : list.items()) {
        try {
          use(row);
        } catch (const Error& error) {
          for (const Diagnostic& d : error.diagnostics()) row.problem(d.message, d.help);
        }
      }
    });
  }

  static std::string text_of(const Node& row, std::string_view name) {
    const auto node = row.require(name);
    return node ? node->text().value_or("") : "";
  }

  void read_elements(const Node& node) {
    if (const auto weights = node.require("weights"))
      for (const Node::Member& m : weights->members())
        table_.elements_[m.name] = m.value.number(1, 300).value_or(1);
    if (const auto groups = node.require("groups"))
      for (const Node::Member& m : groups->members())
        table_.elements_[m.name] = mass_of(m.value.text().value_or("H"));
  }

  double mass_of(std::string_view formula) const {
    return molar_mass(atoms_of(formula, table_.elements_), table_.elements_);
  }

  std::optional<Component> component_named(const Node& row, std::string_view name) const {
    const auto found = std::find(component_names.begin(), component_names.end(), name);
    if (found == component_names.end()) {
      row.problem(fmt::format("\"{}\" is no component", name));
      return std::nullopt;
    }
    return static_cast<Component>(found - component_names.begin());
  }

  void read_component(const Node& row) {
    row.allow_only(std::vector<std::string>{"component", "form", "activity", "inert"});
    const auto component = component_named(row, text_of(row, "component"));
    if (!component) return;
    ComponentRow& entry = table_.components_[static_cast<std::size_t>(*component)];
    entry.form = text_of(row, "form");
    entry.molar_mass = mass_of(entry.form);
    if (row.find("inert")) return;
    entry.charge = atoms_of(entry.form, table_.elements_).charge;
    entry.master = table_.species_.size();
    Species master;
    master.composition.add(*component, 1);
    if (const auto activity = row.require("activity")) master.activity = read_activity(*activity);
    add_species(std::move(master), entry.form);
  }

  void add_species(Species species, const std::string& name) {
    species.name = name;
    species.charge = atoms_of(name, table_.elements_).charge;
    species.molar_mass = mass_of(name);
    if (species.activity.kind != ActivityModel::Kind::neutral && species.charge == 0)
      throw Error(
          Diagnostic{fmt::format("{} has no charge: give it \"neutral\"", name), "", {}, ""});
    table_.species_.push_back(std::move(species));
  }

  // Adds `number` moles of what the terms are made of, but for the substance that is defined.
  template <class Row>
  void compose(Row& row, const Reaction& reaction, std::string_view defined) const {
    const double sign = number_of(reaction, defined);
    if (std::abs(sign) != 1)
      throw Error(
          Diagnostic{fmt::format("the reaction does not form one {}", defined), "", {}, ""});
    row.log_k = row.log_k * sign;
    bool seen = false;
    for (const Term& term : reaction.terms) {
      if (term.formula == defined && !std::exchange(seen, true)) continue;
      if (term.formula == "H2O") continue;
      const Species& known = table_.species_[table_.species_index(term.formula)];
      const double number = -term.number * sign;
      for (const Part& part : known.composition)
        row.composition.add(part.component, static_cast<int>(number) * part.number);
      row.log_k += known.log_k * number;
    }
  }

  // Its own reaction, and those that the other substances of it are built on.
  std::vector<std::pair<std::size_t, double>> reactions_of(const Reaction& reaction,
                                                           std::string_view defined) const {
    const double sign = number_of(reaction, defined);
    std::vector<std::pair<std::size_t, double>> result = {{table_.species_.size(), sign}};
    for (const Term& term : reaction.terms) {
      if (term.formula == defined || term.formula == "H2O") continue;
      const Species& known = table_.species_[table_.species_index(term.formula)];
      for (const auto& [row, number] : known.built_on)
        result.emplace_back(row, -term.number * sign * number);
    }
    return result;
  }

  static double number_of(const Reaction& reaction, std::string_view defined) {
    for (const Term& term : reaction.terms)
      if (term.formula == defined) return term.number;
    return 0;
  }

  void read_species(const Node& row) {
    row.allow_only(std::vector<std::string>{"species", "reaction", "log_k", "activity", "source",
                                            "range_c", "spread", "spread_per_c", "from_memory",
                                            "note"});
    Species species;
    const std::string name = text_of(row, "species");
    species.reaction = text_of(row, "reaction");
    if (const auto log_k = row.require("log_k")) species.log_k = read_log_k(*log_k);
    if (const auto activity = row.require("activity")) species.activity = read_activity(*activity);
    species.source = read_source(row);
    const Reaction reaction = reaction_of(species.reaction, table_.elements_);
    compose(species, reaction, name);
    species.built_on = reactions_of(reaction, name);
    add_species(std::move(species), name);
  }

  void read_phase(const Node& row) {
    row.allow_only(std::vector<std::string>{"phase", "formula", "reaction", "log_k", "source",
                                            "range_c", "spread", "spread_per_c", "from_memory",
                                            "note"});
    Phase phase;
    phase.name = text_of(row, "phase");
    phase.reaction = text_of(row, "reaction");
    if (const auto log_k = row.require("log_k")) phase.log_k = read_log_k(*log_k);
    phase.source = read_source(row);
    compose(phase, reaction_of(phase.reaction, table_.elements_), text_of(row, "formula"));
    table_.phases_.push_back(std::move(phase));
  }

  void read_compound(const Node& row) {
    row.allow_only(std::vector<std::string>{"formula", "adds"});
    Compound compound;
    compound.formula = text_of(row, "formula");
    compound.molar_mass = mass_of(compound.formula);
    if (const auto adds = row.require("adds"))
      for (const Node::Member& m : adds->members())
        if (const auto component = component_named(m.value, m.name))
          compound.adds[*component] = m.value.number(0, 100).value_or(0);
    for (std::size_t i = 1; i < component_count; ++i)
      compound.adds[Component::alkalinity] += compound.adds.at(i) * table_.components_[i].charge;
    table_.compounds_.push_back(std::move(compound));
  }

  void read_conductivity(const Node& node) {
    ConductivityRow& row = table_.conductivity_;
    row.source = text_of(node, "source");
    if (const auto slope = node.require("per_degree")) row.per_degree = slope->number().value_or(0);
    const auto other = node.require("other_ions");
    for (std::size_t s = 0; s < std::min(table_.species_.size(), max_species); ++s)
      if (table_.species_[s].charge != 0 && other)
        row.equivalent[s] = other->number(0, 500).value_or(0);
    if (const auto ions = node.require("equivalent"))
      for (const Node::Member& m : ions->members())
        row.equivalent[table_.species_index(m.name)] = m.value.number(0, 500).value_or(0);
  }

  void read_gas_exchange(const Node& node) {
    GasExchange& gas = table_.gas_exchange_;
    if (const auto rate = node.require("jets_on_per_hour")) gas.jets_on = read_range(*rate);
    if (const auto rate = node.require("jets_off_per_hour")) gas.jets_off = read_range(*rate);
    if (const auto rate = node.require("cover_on_per_hour")) gas.cover_on = read_range(*rate);
    gas.rates_source = text_of(node, "rates_source");
    if (const auto air = node.require("air_log10_pco2_atm"))
      gas.air_log10_pco2_atm = air->number(-6, 0).value_or(0);
    gas.air_date = text_of(node, "air_date");
    gas.air_source = text_of(node, "air_source");
  }

  void check_components() const {
    for (std::size_t i = 0; i < component_count; ++i)
      if (table_.components_[i].form.empty())
        root_.problem(fmt::format("the component {} is missing", component_names[i]));
  }

  Node root_;
  SpeciesTable table_;
};

SpeciesTable SpeciesTable::parse(std::string_view text, const std::string& filename) {
  Problems problems;
  const Node root = Node::parse(text, filename, problems);
  SpeciesTable table = SpeciesReader(root).read();
  problems.throw_if_any();
  return table;
}

}  // namespace tub::chemistry
