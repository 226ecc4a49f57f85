// Combined chlorine, and how much chlorine destroys it, by two published rules that differ.
#pragma once

#include "base/modules.h"

namespace tub::chemistry {

/// Total less free, mg/L as Cl2.
///
/// Throws: Error if free is above total
double combined_chlorine_mg_l(double total_chlorine_mg_l, double free_chlorine_mg_l);

/// Chlorine to add: ten times the combined, whatever free chlorine is there already.
///
/// Source: KFL&A Public Health (Ontario), Breakpoint Chlorination, 2011
double ten_times_combined_mg_l(double combined_chlorine_mg_l);

/// Chlorine to add: ten times the combined, less the free chlorine that is there; 0 if that is
/// enough.
///
/// Source: National Swimming Pool Foundation, instructor manual, metric version, p. 69
double ten_times_combined_less_free_mg_l(double combined_chlorine_mg_l, double free_chlorine_mg_l);

/// What the reaction itself takes of monochloramine: half a mole more of chlorine a mole.
///
/// Source: stoichiometry, 2 NH2Cl + HOCl -> N2 + 3 HCl + H2O
double stoichiometric_breakpoint_mg_l(double combined_chlorine_mg_l);

}  // namespace tub::chemistry
