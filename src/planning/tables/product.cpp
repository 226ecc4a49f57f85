#include "planning/tables/product.h"

#include <fmt/format.h>

#include <algorithm>
#include <cassert>
#include <cmath>

#include "base/nearest.h"
#include "base/text.h"

namespace tub::planning {
namespace {

using StrengthBasis = Product::StrengthBasis;

/// Between two points of a table, along the line through them; REQUIRES: a strength inside it.
double density_at(const Product& product, double strength) {
  const auto above = std::find_if(product.densities.begin(), product.densities.end(),
                                  [&](const auto& point) { return point.strength >= strength; });
  assert(above != product.densities.end());
  if (above == product.densities.begin()) return above->g_ml;
  const Product::DensityPoint& a = *(above - 1);
  const double along = (strength - a.strength) / (above->strength - a.strength);
  return a.g_ml + along * (above->g_ml - a.g_ml);
}

/// Grams of the first part in a gram of product, by a label in that basis. More than 1: a hydrate
/// that has lost water.
double first_fraction(const Product& product, double strength, const StrengthBasis& basis) {
  const double percent =
      basis.per == StrengthBasis::Per::mass ? strength : strength / density_at(product, strength);
  return percent / basis.per_mass_fraction;
}

/// The figure in the first basis that a label in another stands for.
double in_first_basis(const Product& product, double fraction) {
  const StrengthBasis& first = product.strengths.front();
  if (first.per == StrengthBasis::Per::mass) return fraction * first.per_mass_fraction;
  double low = 0;
  double high = first.most;
  for (int halving = 0; halving < 60; ++halving) {
    const double middle = (low + high) / 2;
    (first_fraction(product, middle, first) < fraction ? low : high) = middle;
  }
  return (low + high) / 2;
}

/// The parts of a product whose first one is so much of it.
std::vector<Product::Part> scaled_parts(const Product& product, double fraction) {
  std::vector<Product::Part> parts;
  for (const Product::Part& part : product.parts) {
    if (product.drier_form && part.formula == product.drier_form->formula) continue;
    parts.push_back(part);
    const double molar_ratio = part.molar_mass / product.parts.front().molar_mass;
    if (part.moles_per_first > 0) {
      parts.back().mass_fraction = fraction * part.moles_per_first * molar_ratio;
    }
  }
  parts.front().mass_fraction = fraction;
  if (fraction > 1 && product.drier_form) {
    // x of the hydrate and 1 - x of the drier form, which has `richer` times as much in a gram.
    const double richer = parts.front().molar_mass / product.drier_form->molar_mass;
    parts.front().mass_fraction = (richer - fraction) / (richer - 1);
    parts.push_back(*product.drier_form);
    parts.back().mass_fraction = 1 - parts.front().mass_fraction;
  }
  return parts;
}

const StrengthBasis& basis_named(const Product& product, std::string_view name) {
  std::vector<std::string> known;
  for (const StrengthBasis& basis : product.strengths) {
    if (basis.name == name) return basis;
    known.push_back(basis.name);
  }
  throw Error({fmt::format("the strength of {} is not given in \"{}\"", product.id, name),
               "",
               {},
               known.empty() ? "leave the strength out" : suggestion(name, known)});
}

void check_strength(const Product& product, double strength, const StrengthBasis& basis) {
  if (strength > 0 && strength <= basis.most) return;
  const std::string found = fmt::format("{} {}", shortest(strength), basis.name);
  if (!(strength > 0)) {
    throw Error({fmt::format("the strength of {} must be above 0, found {}", product.id, found),
                 "",
                 {},
                 "copy the strength from the label"});
  }
  const std::string other =
      product.stronger.empty()
          ? ""
          : fmt::format("; or is it {}{}?", product.stronger,
                        product.stronger_note.empty() ? "" : ", " + product.stronger_note);
  throw Error({fmt::format("no {} is as strong as {}; the most is {}", product.id, found,
                           shortest(basis.most)),
               "",
               {},
               "check the figure and its basis on the label" + other});
}

}  // namespace

bool Product::can(Purpose purpose) const {
  return std::find(purposes.begin(), purposes.end(), purpose) != purposes.end();
}

bool Product::in_group(std::string_view group) const {
  return std::find(groups.begin(), groups.end(), group) != groups.end();
}

const Provenance& Product::source_of(const std::string& field) const { return sources.at(field); }

Product with_strength(const Product& product, double strength, std::string_view basis) {
  const StrengthBasis& chosen = basis_named(product, basis);
  check_strength(product, strength, chosen);
  const double fraction = first_fraction(product, strength, chosen);
  Product result = product;
  result.parts = scaled_parts(product, fraction);
  result.strength =
      &chosen == &product.strengths.front() ? strength : in_first_basis(product, fraction);
  if (!product.densities.empty()) result.density_g_ml = density_at(product, result.strength);
  return result;
}

Product aged(const Product& product, double days) {
  if (!product.half_life_days || product.parts.empty()) return product;
  const auto left = [&](double half_life) { return std::exp2(-days / half_life); };
  const Interval& half_life = *product.half_life_days;
  const Interval share{left(half_life.low), left(half_life.value), left(half_life.high)};
  Product result = product;
  result.strength *= share.value;
  result.strength_left = share.value;
  result.parts.front().mass_fraction *= share.value;
  result.strength_loss = 0;
  result.strength_half_width =
      std::hypot(product.strength_half_width, (share.high - share.low) / 2 / share.value);
  return result;
}

}  // namespace tub::planning
