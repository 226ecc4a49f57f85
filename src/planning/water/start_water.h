// A test slip made whole: what was not measured is assumed and named, and how far each reading may
// be off becomes waters.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "chemistry/operations.h"
#include "planning/request.h"

namespace tub::planning {

/// What one error does to the start water: two waters beside it, and how far out they are.
struct UncertainReading {
  enum class Of { reading, total_hardness, magnesium_share, refilled_share, judged };
  Of of = Of::reading;
  std::optional<Reading> reading;  ///< of `Of::reading`
  Water low;                       ///< with the error at -low_share of its 90 % half-width
  Water high;                      ///< and at share
  /// 1, or less where the water at the whole half-width cannot exist; low_share 0: none below.
  double share = 1;
  double low_share = 1;
  /// Within what nine in ten and more draws reach there is no such water.
  bool is_cut = false;
  /// Of what may be none at all: a test that reads less than none reads none, so far below
  /// (in half-widths).
  std::optional<double> none_below = std::nullopt;
};

/// What an error changes in the totals of a water: a parabola in half-widths through its waters.
/// Inorganic carbon follows pH by factors.
class ErrorShape {
 public:
  ErrorShape(const UncertainReading& error, const Water& at);
  /// The same for each unit, whatever the unit is.
  explicit ErrorShape(const Totals& in_line) : linear_(in_line) {}

  /// Adds the change at so many half-widths; the factor of carbon, logarithm, is kept apart.
  void add_to(Totals& totals, double& log_carbon, double half_widths) const;

 private:
  Totals linear_;
  Totals square_;
  double log_linear_ = 0;
  double log_square_ = 0;
  std::optional<double> none_below_;
};

struct StartWater {
  Water water;
  WaterState state;
  std::vector<std::string> measured;  ///< keys of the state that a test gave
  std::vector<Reason> assumed;
  std::vector<UncertainReading> uncertain;
};

/// REQUIRES: pH, total alkalinity and a hardness are there.
/// Throws: Error if no such water can exist
StartWater start_water(const WaterTest& test, const PlanningData& data,
                       const SpeciesTable& species);

/// An assumption as the plan states it.
Reason reason_of(const Assumed& assumed);

}  // namespace tub::planning
