// Products read from their data file.
#include <fmt/format.h>

#include <algorithm>

#include "base/text.h"
#include "planning/tables/data_row.h"
#include "planning/tables/product.h"

namespace tub::planning {
namespace {

using data_row::items;
using data_row::names;
using data_row::number;
using data_row::optional_number;
using data_row::optional_range;
using MolarMasses = std::map<std::string, double>;

const Names forms = {"granules", "liquid", "tablets"};
const Names purpose_names = {"raise_alkalinity",   "raise_ph",     "lower_ph",
                             "sanitize_chlorine",  "bromide_bank", "sanitize_bromine",
                             "raise_calcium",      "oxidise",      "hold_metals",
                             "stabilise_chlorine", "borate"};
const Names signals = {"none", "warning", "danger"};
const Names ghs_codes = {"GHS01", "GHS02", "GHS03", "GHS04", "GHS05",
                         "GHS06", "GHS07", "GHS08", "GHS09"};
const Names source_fields = {
    "composition", "strength",     "strength_half_width", "strength_loss",
    "density",     "bulk_density", "bulk_density_range",  "single_addition",
    "protection",  "hazards",      "harms_shells",        "half_life",
    "dissolves"};
const Names product_fields = {"id",
                              "form",
                              "purposes",
                              "parts",
                              "drier_form",
                              "rest",
                              "strengths",
                              "strength",
                              "stronger",
                              "stronger_note",
                              "strength_half_width",
                              "strength_loss",
                              "half_life_days",
                              "dissolves",
                              "bulk_density_g_ml",
                              "bulk_density_range_g_ml",
                              "densities",
                              "single_addition_mg_l",
                              "groups",
                              "protection",
                              "handling",
                              "danger",
                              "harms_shells",
                              "hazard_statements",
                              "pictograms",
                              "signal",
                              "sources"};

std::size_t index_of(const Names& known, const std::string& name) {
  return static_cast<std::size_t>(std::find(known.begin(), known.end(), name) - known.begin());
}

/// The molar mass of the formula that a field names; a problem if the table lacks it.
double molar_mass_of(const Node& field, const MolarMasses& molar_masses) {
  const std::string formula = field.text().value_or("");
  const auto found = molar_masses.find(formula);
  if (found != molar_masses.end()) return found->second;
  field.problem(fmt::format("the formula \"{}\" has no molar mass", formula),
                "add it to molar_masses_g_mol");
  return 1;
}

Product::Part read_part(const Node& row, const MolarMasses& molar_masses) {
  row.allow_only(Names{"formula", "moles_per_first", "mass_fraction"});
  Product::Part part;
  part.formula = data_row::text(row, "formula");
  if (const auto formula = row.find("formula")) {
    part.molar_mass = molar_mass_of(*formula, molar_masses);
  }
  part.moles_per_first = optional_number(row, "moles_per_first", 0, 100).value_or(0);
  part.mass_fraction = optional_number(row, "mass_fraction", 0, 1).value_or(0);
  return part;
}

void read_parts(const Node& row, const MolarMasses& molar_masses, Product& product) {
  for (const Node& item : items(row, "parts")) {
    product.parts.push_back(read_part(item, molar_masses));
  }
  const std::optional<Node> drier = row.find("drier_form");
  if (!drier) return;
  const double molar_mass = molar_mass_of(*drier, molar_masses);
  product.drier_form = Product::Part{drier->text().value_or(""), 0, molar_mass, 0};
}

Product::StrengthBasis read_basis(const Node& row, const Product& product,
                                  const MolarMasses& molar_masses) {
  row.allow_only(Names{"name", "per", "counts", "moles", "most"});
  Product::StrengthBasis basis;
  basis.name = data_row::text(row, "name");
  if (const auto per = row.find("per")) {
    if (per->one_of(Names{"mass", "volume"}) == "volume") {
      basis.per = Product::StrengthBasis::Per::volume;
    }
  }
  const std::optional<Node> counts = row.require("counts");
  if (!counts || product.parts.empty()) return basis;
  const double counted = number(row, "moles", 0, 100) * molar_mass_of(*counts, molar_masses);
  basis.per_mass_fraction = 100 * counted / product.parts.front().molar_mass;
  basis.most = number(row, "most", 0, 100);
  if (!product.drier_form && basis.per == Product::StrengthBasis::Per::mass &&
      basis.most > basis.per_mass_fraction) {
    row.problem(
        fmt::format("the pure compound has only {:.2f} {}", basis.per_mass_fraction, basis.name),
        "lower most, or name a drier_form");
  }
  return basis;
}

void read_densities(const Node& row, Product& product) {
  product.bulk_density_g_ml = optional_number(row, "bulk_density_g_ml", 0.1, 5);
  product.bulk_density_range_g_ml = optional_range(row, "bulk_density_range_g_ml");
  const std::optional<Node> table = row.find("densities");
  if (!table) return;
  for (const Node& item : table->items()) {
    const std::vector<Node> pair = item.items();
    const double least = product.densities.empty() ? 0 : product.densities.back().strength;
    if (pair.size() != 2) {
      item.problem("expected [strength, density in g/mL]");
    } else {
      product.densities.push_back(
          {pair[0].number(least, 100).value_or(least), pair[1].number(0.5, 2).value_or(1)});
    }
  }
}

void read_strength(const Node& row, const MolarMasses& molar_masses, Product& product) {
  for (const Node& item : items(row, "strengths")) {
    product.strengths.push_back(read_basis(item, product, molar_masses));
  }
  if (product.strengths.empty()) return;
  const Product::StrengthBasis& first = product.strengths.front();
  product.strength = number(row, "strength", 0, first.most);
  product.strength_half_width = number(row, "strength_half_width", 0, 0.5);
  product.strength_loss = optional_number(row, "strength_loss", 0, 0.9).value_or(0);
  if (const auto stronger = row.find("stronger")) product.stronger = stronger->text().value_or("");
  if (const auto note = row.find("stronger_note")) {
    product.stronger_note = note->text().value_or("");
  }
  if (first.per == Product::StrengthBasis::Per::volume &&
      (product.densities.empty() || product.densities.back().strength < first.most)) {
    row.problem("the densities do not reach the strongest product",
                "continue densities to the first basis' most");
  }
}

/// [low, value, high] of a field, rising.
std::optional<Interval> read_interval(const Node& row, std::string_view field) {
  const std::optional<Node> list = row.find(field);
  if (!list) return std::nullopt;
  const std::vector<Node> ends = list->items();
  if (ends.size() != 3) {
    list->problem("expected [low, value, high]");
    return std::nullopt;
  }
  Interval interval;
  interval.low = ends[0].number(0.01, 1e4).value_or(1);
  interval.value = ends[1].number(interval.low, 1e4).value_or(interval.low);
  interval.high = ends[2].number(interval.value, 1e4).value_or(interval.value);
  return interval;
}

void read_change_with_time(const Node& row, Product& product) {
  product.half_life_days = read_interval(row, "half_life_days");
  const std::optional<Node> dissolves = row.find("dissolves");
  if (!dissolves) return;
  dissolves->allow_only(Names{"piece_g", "g_per_day"});
  dissolves->require("g_per_day");
  product.dissolves =
      Product::Dissolving{number(*dissolves, "piece_g", 0.1, 1000),
                          read_interval(*dissolves, "g_per_day").value_or(Interval{})};
}

void read_hazards(const Node& row, Product& product) {
  product.groups = names(row, "groups", known_groups());
  product.protection = names(row, "protection", known_protection());
  product.handling = names(row, "handling", known_handling());
  product.danger = data_row::name(row, "danger", known_dangers());
  product.harms_shells = names(row, "harms_shells", known_shells());
  for (const Node& item : items(row, "hazard_statements")) {
    product.hazard_statements.push_back(item.text().value_or(""));
  }
  product.pictograms = names(row, "pictograms", ghs_codes);
  const std::string signal = data_row::name(row, "signal", signals);
  product.signal = static_cast<Product::Signal>(index_of(signals, signal) % signals.size());
}

/// The fields of a row whose figures must have a source.
Names fields_with_figures(const Product& product) {
  Names fields = {"composition", "protection", "hazards"};
  const auto add_if = [&](bool has, const char* field) {
    if (has) fields.emplace_back(field);
  };
  add_if(!product.strengths.empty(), "strength");
  add_if(product.strength_half_width > 0, "strength_half_width");
  add_if(product.strength_loss > 0, "strength_loss");
  add_if(!product.densities.empty(), "density");
  add_if(product.bulk_density_g_ml.has_value(), "bulk_density");
  add_if(product.bulk_density_range_g_ml.has_value(), "bulk_density_range");
  add_if(product.single_addition_mg_l > 0, "single_addition");
  add_if(!product.harms_shells.empty(), "harms_shells");
  add_if(product.half_life_days.has_value(), "half_life");
  add_if(product.dissolves.has_value(), "dissolves");
  return fields;
}

void read_sources(const Node& row, Product& product) {
  const std::optional<Node> sources = row.require("sources");
  if (!sources) return;
  sources->allow_only(source_fields);
  for (const auto& [field, value] : sources->members()) {
    if (const auto source = read_provenance(value)) product.sources[field] = *source;
  }
  for (const std::string& field : fields_with_figures(product)) sources->require(field);
}

/// With the usual strength put in, if the row is whole so far.
Product completed(const Node& row, Product product) {
  if (product.strengths.empty() || product.parts.empty() || product.strength <= 0) return product;
  product = with_strength(product, product.strength, product.strengths.front().name);
  double sum = 0;
  for (const Product::Part& part : product.parts) sum += part.mass_fraction;
  constexpr double rounding = 1e-9;
  if (sum > 1 + rounding) {
    row.problem(fmt::format("the parts make up {:.4f} of the product", sum),
                "lower the strength or a mass_fraction");
  }
  return product;
}

Product read_product(const Node& row, const MolarMasses& molar_masses) {
  row.allow_only(product_fields);
  Product product;
  product.id = data_row::text(row, "id");
  const std::string form = data_row::name(row, "form", forms);
  product.form = static_cast<Form>(index_of(forms, form) % forms.size());
  for (const std::string& purpose : names(row, "purposes", purpose_names)) {
    product.purposes.push_back(static_cast<Purpose>(index_of(purpose_names, purpose)));
  }
  read_parts(row, molar_masses, product);
  if (const auto rest = row.find("rest")) product.rest = rest->text().value_or("");
  read_densities(row, product);
  read_strength(row, molar_masses, product);
  read_change_with_time(row, product);
  product.single_addition_mg_l = optional_number(row, "single_addition_mg_l", 0, 1000).value_or(0);
  read_hazards(row, product);
  read_sources(row, product);
  return completed(row, std::move(product));
}

MolarMasses read_molar_masses(const Node& root) {
  MolarMasses result;
  const std::optional<Node> table = root.require("molar_masses_g_mol");
  if (!table) return result;
  for (const auto& [formula, value] : table->members()) {
    result[formula] = value.number(1, 2000).value_or(1);
  }
  return result;
}

}  // namespace

std::span<const std::string> known_shells() {
  static const Names names = {"acrylic",         "vinyl",  "rotomoulded", "fibreglass",
                              "stainless_steel", "timber", "tile"};
  return names;
}

std::span<const std::string> known_protection() {
  static const Names names = {"gloves", "acid_gloves", "goggles", "face_shield", "mask"};
  return names;
}

std::span<const std::string> known_handling() {
  static const Names names = {"outdoors", "wind_at_back", "no_mask_protects", "keep_dry",
                              "no_metal"};
  return names;
}

std::span<const std::string> known_groups() {
  static const Names names = {"acid",
                              "acid_salt",
                              "base",
                              "carbonate",
                              "chlorine",
                              "hypochlorite",
                              "stabilised_chlorine",
                              "dichlor",
                              "oxidiser",
                              "sanitizer",
                              "bromine",
                              "bromide",
                              "calcium_salt",
                              "hydrated_salt",
                              "organic",
                              "stabiliser",
                              "borate"};
  return names;
}

std::span<const std::string> known_dangers() {
  static const Names names = {"",
                              "eye_irritant",
                              "serious_eye_damage",
                              "gets_hot",
                              "burns",
                              "burns_and_fumes",
                              "burns_gas_with_acid",
                              "gas_with_acid",
                              "oxidiser_gas_with_acid",
                              "oxidiser_burns",
                              "oxidiser_burns_gas_with_acid",
                              "may_harm_fertility"};
  return names;
}

std::vector<Product> parse_products(std::string_view text, const std::string& file) {
  Problems problems;
  const Node root = Node::parse(text, file, problems);
  root.allow_only(Names{"_about", "molar_masses_g_mol", "products"});
  const MolarMasses molar_masses = read_molar_masses(root);
  const std::vector<Node> rows = items(root, "products");
  data_row::report_duplicate_ids(rows);
  std::vector<Product> products =
      data_row::read_all(rows, [&](const Node& row) { return read_product(row, molar_masses); });
  problems.throw_if_any();
  return products;
}

}  // namespace tub::planning
