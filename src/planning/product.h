// Products: what each is made of, how it is measured out, and what protects from it.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "planning/reading.h"

namespace tub {

enum class Form { granules, liquid, tablets };

/// What a product can do for a plan; a row may name several.
enum class Purpose {
  raise_alkalinity,
  raise_ph,
  lower_ph,  // lowers alkalinity as well
  sanitize_chlorine,
  bromide_bank,
  sanitize_bromine,
  raise_calcium,
  oxidise,
  hold_metals,
  stabilise_chlorine,
  borate,
};

/// A row of `planning/data/products.json`: a generic chemical, never a brand.
struct Product {
  /// One pure compound in it, by the formulas of the water engine.
  struct Part {
    std::string formula;
    double mass_fraction = 0;  ///< grams of the compound in a gram of product
  };
  /// How a strength may be given: its name on a job, and the share that one gram of `formula` has.
  struct StrengthBasis {
    std::string name;              ///< "% w/w as Cl2", "g/100 mL as Cl2", "% w/w as HCl"
    double per_mass_fraction = 0;  ///< strength figure at mass fraction 1 of the first part
    double theoretical_most = 0;   ///< no product of this kind can be stronger
  };

  std::string id;
  Form form = Form::granules;
  std::vector<Purpose> purposes;
  std::vector<Part> parts;  ///< first part: the one that `strength` scales
  std::vector<StrengthBasis> strengths;
  double default_strength = 0;     ///< in the first basis
  double strength_loss = 0;        ///< share that may be missing, one-sided (90 %): stale product
  double strength_half_width = 0;  ///< two-sided 90 % half-width, as a share
  std::optional<double> bulk_density_g_ml;       ///< granules, poured
  std::optional<Range> bulk_density_range_g_ml;  ///< from the loosest to the densest on sale
  std::optional<double> density_g_ml;            ///< liquids
  double single_addition_mg_l = 0;  ///< most in one pour, mg of product per litre; 0: no limit
  std::string single_addition_source;
  std::vector<std::string>
      groups;  ///< for dangerous pairs: "acid", "hypochlorite", "stabilised_chlorine", …
  std::vector<std::string>
      protection;      ///< signs: "gloves", "goggles", "mask", "face_shield", "acid_gloves"
  std::string danger;  ///< code of the hazard line at its step; may be empty
  std::vector<std::string> harms_shells;       ///< shells that it must not touch
  std::vector<std::string> hazard_statements;  ///< H codes
  std::vector<std::string> sources;            ///< one for each figure that is not an assumption

  bool can(Purpose purpose) const;
  bool in_group(std::string_view group) const;
};

/// A product at hand, with its own figures where the job gives them.
struct ShelfItem {
  Product product;                           ///< with strength and density of this package put in
  std::optional<double> dose_ml_per_1000_l;  ///< a sequestrant's own dose
  std::optional<double> dose_g_per_1000_l;
};

/// Every row of `planning/data/products.json`. Throws: Error with every fault of the text.
std::vector<Product> parse_products(std::string_view text, const std::string& file);

/// The row with a package's strength (in that basis) put in: its parts scaled.
///
/// Throws: Error if no product of this kind can be so strong (the message names the most)
Product with_strength(const Product& product, double strength, std::string_view basis);

}  // namespace tub
