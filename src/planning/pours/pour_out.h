// From amounts to pours: what is measured out for each dose of a draft.
#pragma once

#include <set>

#include "planning/goals/balance.h"
#include "planning/situation.h"

namespace tub::planning {

/// A draft in the parts that are solved apart.
struct DraftParts {
  Frame frame;
  Balancing balance;

  Draft whole() const { return frame.around(balance.moves); }
};

/// A draft that is measured out, and the readings that get no dose in it since a first pour would
/// likelier than not go too far.
struct PouredOut {
  Draft draft;
  std::set<Reading> left_out;
};

/// Every dose rounded to what can be measured, first those that others make up for: sanitizer and
/// calcium, then alkalinity, then pH, solved again each time. Doses that two pours cannot carry
/// become several; what the owner's measure is too coarse for is measured finely. A reading that a
/// first pour would likelier than not take past its band gets no dose.
PouredOut poured_out(const Situation& situation, const DraftParts& parts);

/// The band of a dose's reading carried back to the water right after move `index`.
Limits band_at(const Situation& situation, const Draft& draft, std::size_t index);

/// A pour of a draft: so much of the dose at `index`, and that dose's band.
struct PartialDose {
  const Draft& draft;
  std::size_t index = 0;
  Limits band;
};

/// The chance that the reading after only so many mg/L of a dose passes the far edge of its band.
class Overshoot {
 public:
  Overshoot(const Situation& situation, const PartialDose& dose);
  double operator()(double mg_l) const;

 private:
  DoseMove dose_;
  Limits band_;
  Branches before_;
};

/// The moves before a dose, and so much of it.
Draft until_poured(const Draft& draft, std::size_t index, double mg_l);

/// A dose that lowers its reading: acid.
bool lowers(const DoseMove& dose);

/// What the product of a dose puts in, or what a release takes out, per unit.
Totals direction_of(const Move& move);

}  // namespace tub::planning
