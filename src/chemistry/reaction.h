// Reactions as they stand in the literature, "HCO3- = H+ + CO3-2".
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "chemistry/formula.h"

namespace tub::chemistry {

/// A substance and its stoichiometric number: positive for what is formed.
struct Term {
  std::string formula;
  double number = 0;
};

struct Reaction {
  std::vector<Term> terms;
};

/// Reads a reaction and checks that atoms and charge balance.
///
/// Throws: Error with what does not balance
Reaction reaction_of(std::string_view text, const Elements& elements);

}  // namespace tub::chemistry
