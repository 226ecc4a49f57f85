// Activity coefficients of ions and neutral species over temperature and ionic strength.
#pragma once

#include <array>

#include "chemistry/species_table.h"
#include "units/temperature.h"

namespace tub::chemistry {

/// Relative permittivity of water at 1 atm (equation 2).
///
/// Valid:  0 to 350 °C
/// Source: Bradley & Pitzer 1979, J. Phys. Chem. 83, 1599 (78.38 at 25 °C)
double relative_permittivity(Temperature temperature);

/// kg per litre of pure water at 1 atm.
///
/// Valid:  0 to 100 °C
/// Source: Kell 1975, J. Chem. Eng. Data 20, 97
double water_density(Temperature temperature);

/// The Debye-Hückel constants A in (kg/mol)^1/2 and B in (kg/mol)^1/2 per ångström (equation 2).
struct DebyeHueckel {
  double a = 0;
  double b = 0;
};
DebyeHueckel debye_hueckel(Temperature temperature);

/// What surrounds every ion of a water.
struct Medium {
  DebyeHueckel constants;
  double ionic_strength = 0;  ///< mol/kg; above 0
  double root = 0;            ///< its square root
};
Medium medium(const DebyeHueckel& constants, double ionic_strength);

/// A log10 activity coefficient and its derivative to ionic strength.
struct LogGamma {
  double value = 0;
  double slope = 0;
};

/// Equations 3 (ions with a size), 4 (Davies, other ions) and 5 (neutral species).
///
/// charge:  in elementary charges
/// Valid:   0 to 50 °C; to 0.5 mol/kg, and with growing error to 1
/// Source:  Truesdell & Jones 1974; Davies 1962 with the 0.3 term
LogGamma log_gamma(const ActivityModel& model, int charge, const Medium& medium);

/// The second derivative of the same to ionic strength.
double log_gamma_curvature(const ActivityModel& model, int charge, const Medium& medium);

}  // namespace tub::chemistry
