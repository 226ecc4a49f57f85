// A plan as the water sees it: what happens to it, in order.
#pragma once

#include <memory>
#include <optional>
#include <span>
#include <variant>
#include <vector>

#include "chemistry/operations.h"
#include "chemistry/speciation_series.h"
#include "planning/pours/measuring.h"
#include "planning/request.h"

namespace tub::planning {

/// A product of the shelf as the water sees it.
class Supply {
 public:
  /// REQUIRES: the item outlives this.
  Supply(const ShelfItem& item, const SpeciesTable& species);

  const ShelfItem& item() const { return *item_; }
  const Product& product() const { return item_->product; }
  /// The water with so many mg of the product in each kg.
  Water add_to(const Water& water, double mg_l) const;
  /// What a mg/L of the product adds; negative amounts may be thought of with it.
  const Totals& per_mg_l() const { return per_mg_l_; }
  /// mg per gram or mL, as it is measured out. A liquid without a density counts as water.
  double mg_per_size() const;

 private:
  struct Ingredient {
    const Compound* compound;
    double share;
  };
  const ShelfItem* item_;
  std::vector<Ingredient> ingredients_;
  Totals per_mg_l_;
};

struct HeatMove {
  double to_c = 27;
};

/// How a dose is measured out.
struct Pours {
  std::vector<Measuring::Amount> amounts;
  bool is_fine = false;  ///< too fine for the owner's measure
  double days = 0;       ///< tablets in a floater, until enough has dissolved; 0: it all dissolves
  // What they came from, as sizes: grams, or mL of a liquid.
  double asked = 0;        ///< the whole amount before it was split and rounded
  double first = 0;        ///< the first pour before it was rounded; 0: not split
  double most_in_one = 0;  ///< of one pour; 0: not looked at, infinite: no limit
  double most_in_all = 0;  ///< of all together, for what they may do to pH; the same
};

struct DoseMove {
  const Supply* supply = nullptr;
  std::optional<Reading> goal;           ///< none: a sequestrant
  double mg_l = 0;                       ///< of the product
  double spends_mg_l = 0;                ///< of the sanitizer, right after it
  double spends_per_mg = 0;              ///< and so much more for each mg of the product: tablets
  std::shared_ptr<const Pours> pours{};  ///< once it is measured out; `mg_l` is then their sum

  /// What so many mg/L of it spend of the sanitizer, mg/L in the unit of its reading.
  double spent_mg_l(double of_mg_l) const { return spends_mg_l + spends_per_mg * of_mg_l; }
};

struct ReleaseMove {
  double to_log10_pco2_atm = -3.4;
};

/// Acid, then air, so many times.
struct RoundsMove {
  DoseMove dose;
  ReleaseMove release;
  int times = 1;
};

/// Whole tablets in a floater that put back what is used: with both, the water stays as it is.
struct FloaterMove {
  const Supply* supply = nullptr;
  int tablets = 1;
};

using Move = std::variant<HeatMove, DoseMove, ReleaseMove, RoundsMove, FloaterMove>;
using Draft = std::vector<Move>;

/// More or less of doses than is planned.
struct DoseScale {
  double factor = 1;
  const Supply* only = nullptr;  ///< of this product; null: of all

  double mg_l(const DoseMove& dose) const {
    return only == nullptr || only == dose.supply ? dose.mg_l * factor : dose.mg_l;
  }
};

/// What moves do to a water. Remembers the species that it met last: the next water is mostly a
/// similar one, and is solved from there. For one thread.
class Bench {
 public:
  explicit Bench(const SpeciesTable& species) : species_(&species), series_(species) {}

  Water after(const Water& water, const Move& move, const DoseScale& scale = {}) const;
  Water after(const Water& water, std::span<const Move> moves) const;
  Speciation species_of(const Water& water) const { return series_.species(water); }
  double ph(const Water& water) const { return series_.ph(water); }
  /// The water's own carbon dioxide, log10 of atm.
  double log10_pco2(const Water& water) const {
    return log10_pco2_atm(water, species_of(water), *species_);
  }
  /// A reading that is one total, linear in every dose; nothing for pH and the like.
  std::optional<double> counted(Reading reading, const Water& water) const;
  /// Any reading of the water, without a speciation where it is one total.
  double reading(Reading reading, const Water& water) const;
  WaterState state(const Water& water) const { return read(water, species_of(water), *species_); }
  const SpeciesTable& species() const { return *species_; }

 private:
  const SpeciesTable* species_;
  mutable SpeciationSeries series_;
};

}  // namespace tub::planning
