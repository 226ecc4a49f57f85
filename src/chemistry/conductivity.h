// Electric conductivity: what the species of a water would show, and what it says of solids.
#pragma once

#include "chemistry/speciate.h"

namespace tub::chemistry {

/// µS/cm at 25 °C (equation 21): limiting conductivities lowered by Onsager's law with a finite
/// ion size.
///
/// Valid:   to 0.15 mol/kg, a few per cent; ion pairs as they are in the water, not at 25 °C
/// Source:  Onsager 1927; Robinson & Stokes 1959, Electrolyte Solutions (from memory)
/// Checked: KCl, NaCl and CaCl2 solutions of the CRC Handbook, to 2 %
double conductivity_us_cm(const Speciation& speciation, const SpeciesTable& table);

/// A conductivity as a meter without compensation shows it, from that at 25 °C, and back.
double conductivity_at(double us_cm_at_25, Temperature temperature, const SpeciesTable& table);
double conductivity_at_25(double us_cm, Temperature temperature, const SpeciesTable& table);

/// Dissolved solids by a factor of mg/L for each µS/cm at 25 °C: 0.5 on the sodium chloride scale
/// to 0.7 on that of mixed salts.
double dissolved_solids_mg_l(double us_cm_at_25, double factor);

}  // namespace tub::chemistry
