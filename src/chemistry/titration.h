// Total alkalinity as a kit finds it: acid to a pH, after thiosulfate has taken the chlorine.
#pragma once

#include "chemistry/operations.h"

namespace tub::chemistry {

/// What the thiosulfate of a kit makes of an oxidant (equations 24 and 25). In excess, near
/// neutral, both happen: the two are the ends of what a kit may see.
enum class Dechlorination {
  none,              ///< hypochlorite and chlorinated cyanurates are titrated as bases
  to_tetrathionate,  ///< takes one equivalent of acid a mole of oxidant
  to_sulfate,        ///< gives one and a half
};

/// mg/L as CaCO3 of acid that brings the water, closed, to a pH.
///
/// end_ph: 4.5, as most kits; 4.3 for acid capacity by DIN 38409-7
/// Throws: Error if the pH is outside 2 to 8
double titrated_alkalinity_mg_l(const Water& water, Dechlorination dechlorination, double end_ph,
                                const SpeciesTable& table);

/// What of a reading by DPD in mg/L as Cl2 is bromine in mg/L as Br2, and back: kits for bromine
/// often show chlorine.
double bromine_from_chlorine_reading(double mg_l_as_cl2);
double chlorine_reading_of_bromine(double mg_l_as_br2);

}  // namespace tub::chemistry
