// How far readings may be off because equilibrium constants are not known better.
#include <cmath>

#include "chemistry/derivatives.h"

namespace tub::chemistry {
namespace {

template <class Use>
void for_each_reading(Use use) {
  for (const auto& key : reading_keys) use(static_cast<double WaterState::*>(key.member));
  for (const auto& key : derived_keys) use(key.member);
}

}  // namespace

WaterState constant_spread(const Water& water, const Speciation& speciation,
                           const SpeciesTable& table) {
  const Derivatives derivatives(water, speciation, table);
  const bool has_carbon = water.totals[Component::carbonate] > 0;
  const WaterState by_carbon = has_carbon ? derivatives.by(Component::carbonate) : WaterState{};
  WaterState squares;
  for_each_reading([&](auto member) { squares.*member = 0; });
  for (std::size_t s = 0; s < table.species().size(); ++s) {
    const double half_width = table.species()[s].source.spread_at(water.temperature);
    if (half_width == 0 || speciation.molality[s] == 0) continue;
    const WaterState slope = derivatives.by_constant(s);
    // pH and alkalinity are measured: inorganic carbon gives way.
    const double carbon = has_carbon ? -slope.ph / by_carbon.ph : 0;
    for_each_reading([&](auto member) {
      const double change = (slope.*member + carbon * by_carbon.*member) * half_width;
      squares.*member += change * change;
    });
  }
  for_each_reading([&](auto member) { squares.*member = std::sqrt(squares.*member); });
  const Phase& calcite = table.phase("calcite");
  squares.saturation_index =
      std::hypot(squares.saturation_index, calcite.source.spread_at(water.temperature));
  return squares;
}

}  // namespace tub::chemistry
