// Everything that a plan is made from: already valid, already in the planner's units.
#pragma once

#include <map>
#include <optional>
#include <string>
#include <vector>

#include "planning/assumptions.h"
#include "planning/hazard.h"
#include "planning/measure.h"
#include "planning/product.h"
#include "planning/targets.h"
#include "planning/test_method.h"
#include "planning/tub.h"

namespace tub {

/// One reading of a test slip.
struct MeasuredReading {
  double value = 0;    ///< in the unit of its key
  std::string method;  ///< identifier of the test method
};

/// A test slip: readings by their `water` key ("ph", "total_alkalinity_mg_l", …), and beside those
/// "total_hardness_mg_l" (as CaCO3), "total_chlorine_mg_l", "conductivity_us_cm" (at 25 °C) and
/// "dissolved_solids_mg_l".
struct WaterTest {
  double temperature_c = 15;
  bool temperature_is_assumed = false;
  std::map<std::string, MeasuredReading> readings;

  std::optional<double> value(const std::string& key) const;
};

/// The sanitizer a job asks for.
struct Sanitizer {
  std::string kind;  ///< "dichlor", "sodium_hypochlorite", …
  bool mineral_cartridge = false;
};

struct PlanRequest {
  std::string fingerprint;  ///< six characters of Crockford base 32
  Tub tub;
  WaterTest water;
  bool water_is_in_tub = false;  ///< a tub that is already full: no fill step
  std::optional<WaterTest> second_source;
  Sanitizer sanitizer;
  TargetSet targets;  ///< with the job's own figures put in
  std::vector<ShelfItem> shelf;
  MeasureSystem measure;
  TestMethod retest_with;
  std::vector<Reason> assumed;  ///< what the reader of the job had to assume
};

/// Tables that every plan uses.
struct PlanningData {
  std::vector<Product> products;
  std::vector<TargetSet> target_sets;
  std::vector<TestMethod> test_methods;
  std::vector<HazardRule> hazard_rules;
  std::vector<MeasureSystem> measures;
  Gate gate;
  Assumptions assumptions;
};

}  // namespace tub
