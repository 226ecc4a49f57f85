// What oxidants do at once.
#pragma once

#include "chemistry/water.h"

namespace tub::chemistry {

/// Chlorine, then peroxymonosulfate, oxidises bromide mole for mole as far as both are there:
/// HOCl + Br- -> HOBr + Cl-; HSO5- + Br- -> HOBr + SO4-2 (equations 13 and 14).
void oxidise_bromide(Totals& totals);

}  // namespace tub::chemistry
