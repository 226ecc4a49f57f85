#include "planning/retests/resumption.h"

namespace tub::planning {

StartWater first_water(const PlanRequest& request, const PlanningData& data,
                       const SpeciesTable& species) {
  if (request.resumption != nullptr) return request.resumption->start;
  return start_water(request.water, data, species);
}

}  // namespace tub::planning
