// One way each to bring pH and alkalinity to their aims; for use by the balance goal only.
#pragma once

#include <optional>

#include "planning/goals/balance.h"

namespace tub::planning {

/// Where a candidate aims: which of the four counts depends on the side it comes from.
struct BalanceAims {
  double alkalinity_from_below = 0;
  double alkalinity_from_above = 0;
  double ph_from_below = 0;
  double ph_from_above = 0;
};

/// What amounts are measured with: what the owner has, or a 0.1 g scale.
enum class Scale { owned, fine };

/// Solves single means on the final water. Every member gives nothing where its means would have
/// to be taken out of the water instead of put in.
class BalanceMeans {
 public:
  BalanceMeans(const Situation& situation, const Frame& frame, const BalanceAims& aims);

  /// A product that moves alkalinity to its aim.
  std::optional<Draft> for_alkalinity(const Supply& supply) const;
  /// A product that moves pH to its aim.
  std::optional<Draft> for_ph(const Supply& supply) const;
  /// Carbon dioxide released until pH comes to its aim (or to the air's), after the doses.
  std::optional<Draft> with_air(const Draft& doses) const;
  /// As much of it as jets release, where the aim is not met by then.
  std::optional<Draft> aired_out() const;
  /// Alkalinity by the first, pH by the second, both at their aims.
  std::optional<Draft> pair(const Supply& alkalinity, const Supply& ph) const;
  /// For a set that asks for no alkalinity: so much of it all the same that pH holds still, and the
  /// second product for pH. Nothing where the water has that much.
  std::optional<Draft> buffered(const Supply& alkaline, double alkalinity, const Supply& ph) const;
  /// A pair in another order, where a pour of the usual one would leave the window: pH first, or as
  /// much of it as the window allows, then alkalinity, then the rest (nothing where so little of it
  /// comes first that nobody can measure it).
  Draft ph_first(const Draft& pair) const;
  std::optional<Draft> ph_around(const Draft& pair) const;
  /// By turns, as much of each as the window allows: water that holds next to nothing takes little
  /// of either at once. Nothing where no turn that can be measured gets on.
  std::optional<Draft> in_turns(const Draft& pair, Scale scale) const;
  /// Acid for alkalinity, air for pH, in as few rounds as one step's pours and the pH window allow.
  std::optional<Draft> acid_and_air(const Supply& acid) const;
  /// For one dose: as far as an edge of the other reading's band or gate allows.
  std::optional<Draft> up_to_other(const Draft& single, const Limits& other) const;

  /// The whole plan around these moves, its doses cut to what pours may do to pH.
  struct Cut {
    Draft moves;
    Draft whole;
  };
  Cut within_pour_window(const Draft& moves) const;

 private:
  Water final(const Draft& moves) const;
  double alkalinity_aim(const Supply& supply) const;
  double ph_aim(const Supply& supply) const;
  std::optional<Draft> rounds(const DoseMove& all, double to_log10_pco2, const Draft& first) const;
  /// The least that jets must bring down carbon dioxide between the turns for all of them to be
  /// safe.
  std::optional<double> shallowest_safe(RoundsMove turns, const Water& from) const;
  bool turns_are_safe(const RoundsMove& rounds, const Water& from) const;

  const Situation& situation_;
  const Frame& frame_;
  BalanceAims aims_;
  Water untouched_;  // the final water without any of it
};

/// The carbon dioxide to release to, after these doses, for a pH of the final water.
std::optional<double> release_for_ph(const Situation& situation, const Frame& frame,
                                     const Draft& doses, double ph);

}  // namespace tub::planning
