#include "chemistry/titration.h"

#include <fmt/format.h>

#include "base/error.h"
#include "chemistry/alkalinity_lack.h"
#include "chemistry/measures.h"

namespace tub::chemistry {
namespace {

double acid_taken(Dechlorination dechlorination) {
  switch (dechlorination) {
    case Dechlorination::none:
      return 0;
    case Dechlorination::to_tetrathionate:
      return 1;
    case Dechlorination::to_sulfate:
      return -1.5;
  }
  return 0;
}

// Oxidants gone, their halogens left as ions; the thiosulfate's own salt is too little to matter.
Water dechlorinated(const Water& water, Dechlorination dechlorination) {
  if (dechlorination == Dechlorination::none) return water;
  Water result = water;
  const auto reduce = [&](Component oxidant, Component becomes) {
    const double moles = water.totals[oxidant];
    result.totals[oxidant] = 0;
    result.totals[becomes] += moles;
    result.totals[Component::alkalinity] += moles * acid_taken(dechlorination);
  };
  reduce(Component::chlorine, Component::chloride);
  reduce(Component::bromine, Component::bromide);
  reduce(Component::peroxymonosulfate, Component::sulfate);
  return result;
}

}  // namespace

double titrated_alkalinity_mg_l(const Water& water, Dechlorination dechlorination, double end_ph,
                                const SpeciesTable& table) {
  if (!(end_ph >= 2 && end_ph <= 8))
    throw Error(Diagnostic{fmt::format("a titration ends from pH 2 to 8, found {}", end_ph),
                           "",
                           {},
                           "4.5 is what most kits titrate to"});
  const Water sample = dechlorinated(water, dechlorination);
  const double taken = -AlkalinityLack(end_ph, table)(sample);
  return taken * grams_per_mole(Component::alkalinity) * 1e3;
}

double bromine_from_chlorine_reading(double mg_l_as_cl2) {
  return mg_l_as_cl2 * grams_per_mole(Component::bromine) / grams_per_mole(Component::chlorine);
}

double chlorine_reading_of_bromine(double mg_l_as_br2) {
  return mg_l_as_br2 * grams_per_mole(Component::chlorine) / grams_per_mole(Component::bromine);
}

}  // namespace tub::chemistry
