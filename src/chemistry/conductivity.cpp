#include "chemistry/conductivity.h"

#include <cmath>
#include <cstdlib>

namespace tub::chemistry {
namespace {

// Onsager's coefficients for water at 25 °C: of the relaxation of the ion cloud, and of its drag
// in S cm²/eq, (kg/mol)^1/2 each; and the reach of the cloud, in (kg/mol)^1/2.
constexpr double relaxation = 0.2297;
constexpr double drag = 30.32;
constexpr double reach = 1.5;

}  // namespace

double conductivity_us_cm(const Speciation& speciation, const SpeciesTable& table) {
  const double root = std::sqrt(speciation.ionic_strength);
  const double effect = root / (1 + reach * root);
  double sum = 0;
  for (std::size_t s = 0; s < table.species().size(); ++s) {
    const double limiting = table.conductivity().equivalent[s];
    const double charge = std::abs(table.species()[s].charge);
    const double equivalent = limiting - charge * (relaxation * limiting + drag) * effect;
    sum += speciation.molality[s] * charge * equivalent;
  }
  return sum * 1e3;
}

double conductivity_at(double us_cm_at_25, Temperature temperature, const SpeciesTable& table) {
  return us_cm_at_25 * (1 + table.conductivity().per_degree * (temperature.celsius() - 25));
}

double conductivity_at_25(double us_cm, Temperature temperature, const SpeciesTable& table) {
  return us_cm / (1 + table.conductivity().per_degree * (temperature.celsius() - 25));
}

double dissolved_solids_mg_l(double us_cm_at_25, double factor) { return us_cm_at_25 * factor; }

}  // namespace tub::chemistry
