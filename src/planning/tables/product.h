// Products: what each is made of, how it is measured out, and what protects from it.
#pragma once

#include <map>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "planning/reading.h"
#include "planning/tables/provenance.h"

namespace tub::planning {

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
    double molar_mass = 0;     ///< g/mol
    /// Moles that go with a mole of the first part, whatever its strength; 0: a fixed share.
    double moles_per_first = 0;
    friend bool operator==(const Part&, const Part&) = default;
  };
  /// A way in which labels give the strength.
  struct StrengthBasis {
    enum class Per { mass, volume };
    std::string name;              ///< "% w/w as Cl2", "g/100 mL as Cl2", "% w/w as HCl"
    Per per = Per::mass;           ///< volume: of the solution, so its density counts
    double per_mass_fraction = 0;  ///< grams of what is counted in 100 g of the pure first part
    double most = 0;               ///< no product of this kind is stronger
  };
  /// A solution's density at one strength, in the first basis.
  struct DensityPoint {
    double strength = 0;
    double g_ml = 0;
  };
  enum class Signal { none, warning, danger };
  /// A tablet in a floater.
  struct Dissolving {
    double piece_g = 0;
    Interval g_per_day;  ///< of one tablet
  };

  std::string id;
  Form form = Form::granules;
  std::vector<Purpose> purposes;
  std::vector<Part> parts;  ///< the first is what `strength` scales; none: a sequestrant
  /// What a label above the pure hydrate's figure holds besides: the same with its water lost.
  std::optional<Part> drier_form;
  std::string rest;  ///< what makes up the gram and is not counted: "sodium sulfate"; may be empty
  std::vector<StrengthBasis> strengths;
  double strength = 0;        ///< in the first basis
  std::string stronger;       ///< the product that a label above the most is likely to be
  std::string stronger_note;  ///< what that one is besides: "an oxidiser"; may be empty
  double strength_loss = 0;   ///< share that may be missing, one-sided (90 %): stale product
  std::optional<Interval> half_life_days;        ///< of the strength, closed and out of the sun
  std::optional<Dissolving> dissolves;           ///< tablets: days, not minutes
  double strength_left = 1;                      ///< share that its age has left it
  double strength_half_width = 0;                ///< two-sided 90 % half-width, as a share
  std::optional<double> bulk_density_g_ml;       ///< granules, poured
  std::optional<Range> bulk_density_range_g_ml;  ///< from the loosest to the densest on sale
  std::optional<double> density_g_ml;            ///< liquids
  std::vector<DensityPoint> densities;           ///< liquids; rising strength
  double single_addition_mg_l = 0;      ///< most in one pour, mg of product per litre; 0: no limit
  std::vector<std::string> groups;      ///< for dangerous pairs: "acid", "chlorine", …
  std::vector<std::string> protection;  ///< signs: "gloves", "acid_gloves", "goggles", …
  std::vector<std::string> handling;    ///< "outdoors", "wind_at_back", "no_mask_protects", …
  std::string danger;                   ///< code of the hazard line at its step; may be empty
  std::vector<std::string> harms_shells;       ///< shells that it must not touch
  std::vector<std::string> hazard_statements;  ///< H and EUH codes of the pure or usual grade
  std::vector<std::string> pictograms;         ///< GHS codes
  Signal signal = Signal::none;
  std::map<std::string, Provenance> sources;  ///< by field: "strength", "bulk_density", …

  bool can(Purpose purpose) const;
  bool in_group(std::string_view group) const;
  /// Where a field's figure comes from. REQUIRES: a field that `sources` names.
  const Provenance& source_of(const std::string& field) const;
};

/// The shells, signs, ways of handling, groups and codes that rows may name.
std::span<const std::string> known_shells();
std::span<const std::string> known_protection();
std::span<const std::string> known_handling();
std::span<const std::string> known_groups();
std::span<const std::string> known_dangers();

/// The row of a package that is so many days old: weaker by its half-life, its spread that of the
/// half-life in place of the loss that nobody knew. A row without a half-life stays as it is.
Product aged(const Product& product, double days);

/// A product at hand, with its own figures where the job gives them.
struct ShelfItem {
  Product product;                           ///< with strength and density of this package put in
  std::optional<double> dose_ml_per_1000_l;  ///< a sequestrant's own dose
  std::optional<double> dose_g_per_1000_l;
};

/// Every row of `planning/data/products.json`. Throws: Error with every fault of the text.
std::vector<Product> parse_products(std::string_view text, const std::string& file);

/// The row with a package's strength (in that basis) put in: its parts scaled, a solution's density
/// taken from its strength. `strength` is left in the first basis.
///
/// Throws: Error if the basis is not one of the row's (its help names them), or if no product of
///         this kind is so strong (the message names the most)
Product with_strength(const Product& product, double strength, std::string_view basis);

}  // namespace tub::planning
