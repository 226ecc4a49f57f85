#include "planning/request.h"

#include "planning/plan.h"

namespace tub::planning {

std::optional<double> WaterTest::value(const std::string& key) const {
  const auto found = readings.find(key);
  return found == readings.end() ? std::nullopt : std::optional(found->second.value);
}

std::string_view kind_of(const Step& step) {
  struct Name {
    std::string_view operator()(const FillVessel&) const { return "fill"; }
    std::string_view operator()(const Heat&) const { return "heat"; }
    std::string_view operator()(const Addition&) const { return "add"; }
    std::string_view operator()(const ReleaseCarbonDioxide&) const {
      return "release_carbon_dioxide";
    }
    std::string_view operator()(const Repeat&) const { return "repeat"; }
    std::string_view operator()(const Replace&) const { return "replace"; }
  };
  return std::visit(Name{}, step.what);
}

}  // namespace tub::planning
