// What a reading that has drifted takes to come back, for one vessel and its own water.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "chemistry/species_table.h"
#include "planning/plan.h"
#include "planning/request.h"

namespace tub::planning {

/// What the test shows, and what to do then.
struct TopUp {
  double reads = 0;                ///< in the unit of the reading's key
  std::optional<Portion> portion;  ///< to add once, in the owner's measure
  bool is_most = false;            ///< one pour takes no more; the reading stays outside its target
  std::optional<double> wait_hours;  ///< instead of a product: it falls by itself
  std::optional<double> replace;     ///< instead of a product: this share of the water
  double leads_to = 0;               ///< what the reading comes to
};

/// A reading below or above its target.
struct TopUpSide {
  std::string product;      ///< empty: nothing on this shelf moves it
  std::vector<TopUp> rows;  ///< from the target outwards; empty: nothing helps here
  bool is_floater = false;  ///< tablets: the floater is opened wider, or taken out, and waited for
};

struct TopUpReading {
  Reading reading = Reading::ph;
  Limits target;        ///< of a sanitizer: the gate for bathing
  Limits between_uses;  ///< of a sanitizer: what is kept between uses; else open
  TopUpSide low;
  TopUpSide high;
};

/// Alkalinity, pH, the sanitizer and calcium, in that order, each with the readings that the test
/// at the tub shows next to its target.
///
/// Each amount is solved by itself: the final water with that one reading as the test shows it (pH
/// kept for the others, alkalinity kept for pH), the product added until the reading is at its
/// ideal, or the middle of its target; cut to what one pour may bring, then to what the owner can
/// measure. At bathing temperature, closed to the air.
/// final: of this request's plan
std::vector<TopUpReading> top_ups(const PlanRequest& request, const PlanningData& data,
                                  const SpeciesTable& species, const WaterState& final);

}  // namespace tub::planning
