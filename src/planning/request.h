// Everything that a plan is made from: already valid, already in the planner's units.
#pragma once

#include <map>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "planning/tables/assumptions.h"
#include "planning/tables/hazard.h"
#include "planning/tables/measure.h"
#include "planning/tables/product.h"
#include "planning/tables/sanitizer_row.h"
#include "planning/tables/targets.h"
#include "planning/tables/test_method.h"
#include "planning/tub.h"

namespace tub::planning {

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

/// What was found in the tub later: a retest after a step, or a later visit (a date alone).
struct RetestReport {
  std::optional<int> after_step;   ///< the number printed on the rung
  std::optional<int> after_pour;   ///< of that rung; none: the last
  std::optional<int> after_round;  ///< of a repeated rung; none: the last that is expected
  std::string date;                ///< "2026-05-11"; may be empty
  std::optional<double> temperature_c;
  std::map<std::string, MeasuredReading> readings;  ///< by `water` key, and total_chlorine_mg_l
  std::string where;                                ///< its place in the job, for messages

  bool is_visit() const { return !after_step; }
};

/// The sanitizer a job asks for.
struct Sanitizer {
  std::string kind;  ///< "dichlor", "sodium_hypochlorite", …
  bool mineral_cartridge = false;
};

struct Resumption;

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
  std::vector<Reason> assumed;        ///< what the reader of the job had to assume
  std::vector<RetestReport> retests;  ///< in the order of the steps
  /// Set while a plan is made again: what it starts from instead of `water`.
  std::shared_ptr<const Resumption> resumption;
};

/// Tables that every plan uses.
struct PlanningData {
  std::vector<Product> products;
  std::vector<TargetSet> target_sets;
  std::vector<TestMethod> test_methods;
  std::vector<SanitizerRow> sanitizers;
  std::vector<HazardRule> hazard_rules;
  std::vector<MeasureSystem> measures;
  Gate gate;
  Assumptions assumptions;
};

}  // namespace tub::planning
