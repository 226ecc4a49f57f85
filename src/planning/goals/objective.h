// Which of two plans is better: one ordered list of what counts.
#pragma once

#include "planning/situation.h"

namespace tub::planning {

/// What a draft comes to, in the order in which it counts.
struct Score {
  int unsafe = 0;          ///< gate readings (pH, sanitizer) outside the gate
  int unmet = 0;           ///< pH, sanitizer and alkalinity outside their bands
  int unmet_hardness = 0;  ///< then hardness and the rest
  double distance = 0;     ///< how far they are out, in steps that matter alike
  int doubtful = 0;        ///< readings that a refill brings in, but not their whole 90 % range
  int additions = 0;       ///< pours at the tub, rounds counted each
  double hours = 0;        ///< waits and jets
  double grams = 0;        ///< of all products
  double off_balance = 0;  ///< saturation index outside its soft band; breaks ties only
};

Score score(const Situation& situation, const Draft& draft);

/// Lexicographic: people's safety; then unmet readings, pH, sanitizer and alkalinity before
/// hardness; then how far they are out (ties within 0.01 of a step); then what a refill leaves in
/// doubt; then the number of additions;
/// then hours (within 0.1 h); then grams (within 0.5 g); the saturation index breaks what ties are
/// left.
bool is_better(const Score& a, const Score& b);

/// Moves that put something in, each time of a repeat counted, and more where one step's two pours
/// cannot carry the amount.
int additions_of(const Draft& draft);

}  // namespace tub::planning
