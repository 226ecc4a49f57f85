// A tub that is otherwise than its job says, and someone who pours and tests in it by the card.
#pragma once

#include <map>
#include <string>
#include <vector>

#include "planning/make_plan.h"

namespace tub::planning {

/// How a tub differs from what its job says.
struct Truth {
  double volume_factor = 1;                  ///< true over stated volume
  std::map<std::string, double> strength{};  ///< true over stated, by product
  double carbon_dioxide_lost = 0;            ///< share of the surplus over air in each wait
  double extra_demand_mg_l = 0;              ///< of free chlorine, beyond what is assumed
};

/// The water of such a tub. It is moved by the chemistry engine alone.
class SimulatedTub {
 public:
  SimulatedTub(const PlanRequest& request, Truth truth);

  /// Does so many pours of a step (0: all of it).
  void follow(const Step& step, std::size_t first_pour = 0, std::size_t pours = 0);
  /// As the card asks: from now on no more leaves in the waits.
  void close_air_valves() { truth_.carbon_dioxide_lost = 0; }
  WaterState state() const;
  /// What the tests of the job show, to their divisions: pH, alkalinity, hardness, chlorine.
  RetestReport report(int after_step, const std::string& method) const;

 private:
  void pour(const Portion& portion, const std::string& product);
  void wait();

  const PlanRequest& request_;
  Truth truth_;
  Water water_;
  double demand_mg_l_ = 0;  ///< that no chlorine has met so far
};

/// The whole startup: every pour by the card, a retest after each, and the plan made again.
struct Startup {
  Plan last;              ///< the plan that was left at the end
  WaterState end;         ///< the true water when it is warm
  int plans = 0;          ///< made in all
  bool is_ended = false;  ///< within forty plans
};
Startup started_up(PlanRequest request, const Truth& truth, const std::string& method);

}  // namespace tub::planning
