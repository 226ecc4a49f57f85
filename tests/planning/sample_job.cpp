#include "sample_job.h"
#include "project_text.h"

#include <stdexcept>

namespace tub::planning {
namespace {

template <class Row>
Row row_of(const std::vector<Row>& rows, const std::string& id) {
  for (const Row& row : rows) {
    if (row.id == id) return row;
  }
  throw std::runtime_error("no row " + id);
}

PlanningData read_planning_data() {
  const std::string folder = "src/planning/data/";
  PlanningData data;
  data.products = parse_products(project_text(folder + "products.json"), "products.json");
  data.target_sets = parse_target_sets(project_text(folder + "targets.json"), "targets.json");
  data.gate = parse_gate(project_text(folder + "targets.json"), "targets.json");
  data.test_methods =
      parse_test_methods(project_text(folder + "test_methods.json"), "test_methods.json");
  data.sanitizers = parse_sanitizers(project_text(folder + "sanitizers.json"), "sanitizers.json");
  data.hazard_rules = parse_hazard_rules(project_text(folder + "hazards.json"), "hazards.json");
  data.measures = parse_measures(project_text(folder + "measures.json"), "measures.json");
  data.assumptions =
      parse_assumptions(project_text(folder + "assumptions.json"), "assumptions.json");
  return data;
}

}  // namespace

const PlanningData& planning_data() {
  static const PlanningData data = read_planning_data();
  return data;
}

const SpeciesTable& species_table() {
  static const SpeciesTable table =
      SpeciesTable::parse(project_text("src/chemistry/data/species.json"), "species.json");
  return table;
}

TargetSet target_set(const std::string& id) { return row_of(planning_data().target_sets, id); }
MeasureSystem measure_system(const std::string& id) { return row_of(planning_data().measures, id); }
TestMethod test_method(const std::string& id) { return row_of(planning_data().test_methods, id); }
ShelfItem shelf_item(const std::string& product) {
  return {row_of(planning_data().products, product), {}, {}};
}

PlanRequest request_for_water(double ph, double total_alkalinity, double calcium_hardness) {
  PlanRequest request;
  request.fingerprint = "000000";
  request.tub = {1340, 0.05, "acrylic", "private", 10, 38, {}};
  request.water.temperature_c = 14;
  request.water.readings = {{"ph", {ph, "drop_kit"}},
                            {"total_alkalinity_mg_l", {total_alkalinity, "drop_kit"}},
                            {"calcium_hardness_mg_l", {calcium_hardness, "drop_kit"}},
                            {"conductivity_us_cm", {310, "photometer"}}};
  request.sanitizer = {"dichlor", false};
  request.targets = target_set("common_practice");
  for (const char* product : {"sodium_bicarbonate", "dry_acid", "soda_ash", "dichlor_dihydrate",
                              "calcium_chloride_dihydrate"}) {
    request.shelf.push_back(shelf_item(product));
  }
  ShelfItem sequestrant = shelf_item("sequestrant");
  sequestrant.dose_ml_per_1000_l = 45;
  request.shelf.push_back(sequestrant);
  request.measure = measure_system("grams_and_us_spoons");
  request.retest_with = test_method("drop_kit");
  return request;
}

PlanRequest sample_request() {
  // 5 °dH of calcium hardness: 5 x 17.848 mg/L as CaCO3.
  PlanRequest request = request_for_water(7.9, 62, 89.24);
  request.water.readings["copper_mg_l"] = {0, "drop_kit"};
  request.water.readings["iron_mg_l"] = {0.3, "photometer"};
  return request;
}

PlanRequest full_tub(double ph, double total_alkalinity, double calcium_hardness) {
  PlanRequest request = request_for_water(ph, total_alkalinity, calcium_hardness);
  request.water_is_in_tub = true;
  request.water.temperature_c = 36;
  return request;
}

Plan planned(const PlanRequest& request) {
  return make_plan(request, planning_data(), species_table());
}

}  // namespace tub::planning
