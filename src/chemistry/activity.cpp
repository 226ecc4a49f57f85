#include "chemistry/activity.h"

#include <cmath>

namespace tub::chemistry {

double relative_permittivity(Temperature temperature) {
  const double t = temperature.kelvin();
  const double at_1000_bar = 342.79 * std::exp(t * (-5.0866e-3 + t * 9.4690e-7));
  const double c = -2.0525 + 3115.9 / (t - 182.89);
  const double b = -8032.5 + 4.2142e6 / t + 2.1417 * t;
  return at_1000_bar + c * std::log((b + 1.01325) / (b + 1000));
}

double water_density(Temperature temperature) {
  const double t = temperature.celsius();
  const double numerator =
      999.83952 +
      t * (16.945176 +
           t * (-7.9870401e-3 + t * (-46.170461e-6 + t * (105.56302e-9 + t * -280.54253e-12))));
  return 1e-3 * numerator / (1 + 16.879850e-3 * t);
}

DebyeHueckel debye_hueckel(Temperature temperature) {
  const double root_density = std::sqrt(water_density(temperature));
  const double product = relative_permittivity(temperature) * temperature.kelvin();
  const double root_product = std::sqrt(product);
  // 1.82483e6 and 50.2916 gather e, k, the Avogadro number and the vacuum's permittivity:
  // Truesdell & Jones 1974.
  return {1.82483e6 * root_density / (product * root_product),
          50.2916 * root_density / root_product};
}

Medium medium(const DebyeHueckel& constants, double ionic_strength) {
  return {constants, ionic_strength, std::sqrt(ionic_strength)};
}

LogGamma log_gamma(const ActivityModel& model, int charge, const Medium& medium) {
  if (model.kind == ActivityModel::Kind::neutral)
    return {model.slope * medium.ionic_strength, model.slope};
  const bool davies = model.kind == ActivityModel::Kind::davies;
  const double az2 = medium.constants.a * charge * charge;
  const double size = davies ? 1 : medium.constants.b * model.size_angstrom;
  const double linear = davies ? 0.3 * az2 : model.slope;
  const double inverse = 1 / (1 + size * medium.root);
  return {-az2 * medium.root * inverse + linear * medium.ionic_strength,
          -az2 * inverse * inverse / (2 * medium.root) + linear};
}

double log_gamma_curvature(const ActivityModel& model, int charge, const Medium& medium) {
  if (model.kind == ActivityModel::Kind::neutral) return 0;
  const bool davies = model.kind == ActivityModel::Kind::davies;
  const double size = davies ? 1 : medium.constants.b * model.size_angstrom;
  const double reach = 1 + size * medium.root;
  return medium.constants.a * charge * charge * (1 + 3 * size * medium.root) /
         (4 * medium.ionic_strength * medium.root * reach * reach * reach);
}

}  // namespace tub::chemistry
