// Everything that the goals of one plan look at: the water, the shelf, the bands.
#pragma once

#include <vector>

#include "planning/goals/goals.h"
#include "planning/retests/resumption.h"
#include "planning/water/draft.h"
#include "planning/water/mixture.h"
#include "planning/water/start_water.h"
#include "planning/water/uncertainty.h"

namespace tub::planning {

/// REQUIRES: the request, the data and the species table outlive this. Not copied or moved: drafts
/// point to its supplies.
class Situation {
 public:
  Situation(const PlanRequest& request, const PlanningData& data, const SpeciesTable& species);
  /// The same with another water to begin with: that of the request after a refill.
  Situation(const PlanRequest& request, const PlanningData& data, const SpeciesTable& species,
            StartWater from, Refill a_refill);
  Situation(const Situation&) = delete;
  Situation& operator=(const Situation&) = delete;

  const PlanRequest& request;
  const PlanningData& data;
  const Assumptions& assumptions;
  const Bench bench;
  const StartWater start;  ///< the water that the moves begin with, a refill included
  const Refill refill;
  const SanitizerRow& sanitizer;
  const BathingGate gate;
  const TargetSet targets;
  const ByReading<Goal> goals;
  /// Water is at least so warm before anything is poured, °C.
  const double dosing_c;

  const Goal* goal(Reading reading) const;
  /// What the plan goes on from; null if it starts from a test slip.
  const Resumption* resumption() const { return request.resumption.get(); }
  /// The mildest product of the shelf that can do it, may touch this shell and is not forbidden by
  /// the target set; null if there is none. The order of the shelf does not matter.
  const Supply* mildest(Purpose purpose) const;
  /// The first of these products that is on the shelf, may touch this shell and is not forbidden.
  const Supply* first_of(std::span<const std::string> products) const;
  const std::vector<Supply>& supplies() const { return supplies_; }
  /// It harms not this shell, the target set does not forbid it, and stabiliser leaves room for it.
  bool may_use(const Product& product) const;
  /// How far a spoonful of it may be off, as a share (90 %); 0 where it is not spooned.
  double spoon_half_width(const Supply& supply) const;
  const Uncertainty& uncertainty() const { return uncertainty_; }

  /// The water after every move of a draft.
  WaterState final_state(const Draft& draft) const;

  /// mg of the product per kg of water for a size as it is measured out, and back.
  double mg_l(const Supply& supply, double size) const;
  double size(const Supply& supply, double mg_l) const;

 private:
  std::vector<Supply> supplies_;
  Uncertainty uncertainty_;
};

}  // namespace tub::planning
