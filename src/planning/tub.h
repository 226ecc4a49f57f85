// The vessel, as the planner knows it.
#pragma once

#include <string>
#include <vector>

#include "planning/reason.h"

namespace tub::planning {

/// REQUIRES: already checked where the job was read; no number is looked at again.
struct Tub {
  double volume_l = 0;                ///< litres of water at bathing temperature, above 0
  double volume_give_or_take = 0.05;  ///< 90 % half-width, as a share of the volume
  std::string shell;                  ///< identifier: "acrylic", …
  std::string use = "private";        ///< "private", "rented" or "public"
  double bathers_per_week = 0;        ///< 0: not said
  double bathing_temperature_c = 38;  ///< at most 40
  std::vector<Reason> assumed;        ///< what was not said about the vessel
};

}  // namespace tub::planning
