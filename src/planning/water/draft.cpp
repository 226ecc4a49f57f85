#include "planning/water/draft.h"

#include <algorithm>

namespace tub::planning {
namespace {

Water after_dose(const Water& water, const DoseMove& dose, double mg_l) {
  const Water dosed = dose.supply->add_to(water, mg_l);
  const double spent = dose.spent_mg_l(mg_l);
  if (spent <= 0) return dosed;
  // A demand takes no more than there is.
  if (dose.goal == Reading::total_bromine) {
    return spend_total_bromine(dosed,
                               std::min(spent, std::max(0.0, total_bromine_mg_l(dosed.totals))));
  }
  return spend_free_chlorine(dosed,
                             std::min(spent, std::max(0.0, free_chlorine_mg_l(dosed.totals))));
}

/// Does each move to a water.
struct Doing {
  const Water& water;
  const DoseScale& scale;
  SpeciationSeries& series;

  Water operator()(const HeatMove& move) const { return heat(water, celsius(move.to_c)); }
  Water operator()(const DoseMove& move) const { return after_dose(water, move, scale.mg_l(move)); }
  Water operator()(const ReleaseMove& move) const {
    return series.in_air(water, move.to_log10_pco2_atm);
  }
  // What carbon dioxide an earlier turn left does not matter: the last release sets it.
  Water operator()(const RoundsMove& move) const {
    const double all = scale.mg_l(move.dose) * move.times;
    return series.in_air(after_dose(water, move.dose, all), move.release.to_log10_pco2_atm);
  }
  Water operator()(const FloaterMove&) const { return water; }
};

}  // namespace

Supply::Supply(const ShelfItem& item, const SpeciesTable& species) : item_(&item) {
  for (const Product::Part& part : item.product.parts) {
    const Compound& compound = species.compound(part.formula);
    ingredients_.push_back({&compound, part.mass_fraction});
    per_mg_l_ += compound.adds * (part.mass_fraction * 1e-3 / compound.molar_mass);
  }
}

Water Supply::add_to(const Water& water, double mg_l) const {
  Water result = water;
  for (const Ingredient& ingredient : ingredients_) {
    result = add(result, *ingredient.compound, mg_l * ingredient.share);
  }
  return result;
}

double Supply::mg_per_size() const {
  if (product().form != Form::liquid) return 1e3;
  return 1e3 * product().density_g_ml.value_or(1.0);
}

Water Bench::after(const Water& water, const Move& move, const DoseScale& scale) const {
  return std::visit(Doing{water, scale, series_}, move);
}

Water Bench::after(const Water& water, std::span<const Move> moves) const {
  Water result = water;
  for (const Move& move : moves) result = after(result, move);
  return result;
}

std::optional<double> Bench::counted(Reading reading, const Water& water) const {
  switch (reading) {
    case Reading::total_alkalinity:
      return total_alkalinity_mg_l(water.totals);
    case Reading::calcium_hardness:
      return calcium_hardness_mg_l(water.totals);
    case Reading::free_chlorine:
      return free_chlorine_mg_l(water.totals);
    case Reading::total_bromine:
      return total_bromine_mg_l(water.totals);
    default:
      return std::nullopt;
  }
}

double Bench::reading(Reading reading, const Water& water) const {
  if (reading == Reading::ph) return ph(water);
  if (const auto found = counted(reading, water)) return *found;
  return value_of(reading, state(water));
}

}  // namespace tub::planning
