#include "random_job.h"

#include <algorithm>
#include <cmath>
#include <cstdlib>

#include "base/error.h"
#include "draw.h"
#include "planning/water/start_water.h"
#include "sample_job.h"

namespace tub::planning {
namespace {

WaterTest random_water(Draw& draw) {
  const std::string method = draw.one_of(planning_data().test_methods).id;
  WaterTest test;
  test.temperature_c = draw.between(5, 25);
  test.readings["ph"] = {draw.between(6.2, 9.2), method};
  test.readings["total_alkalinity_mg_l"] = {draw.log_between(5, 400), method};
  test.readings["calcium_hardness_mg_l"] = {draw.log_between(3, 600), method};
  if (draw.chance(0.5)) test.readings["conductivity_us_cm"] = {draw.log_between(50, 3000), method};
  if (draw.chance(0.3)) test.readings["free_chlorine_mg_l"] = {draw.between(0, 1), method};
  if (draw.chance(0.2)) test.readings["iron_mg_l"] = {draw.between(0, 1), method};
  if (draw.chance(0.2)) test.readings["total_chlorine_mg_l"] = {draw.between(0, 3), method};
  return test;
}

/// A tub that has been in use: warm, with sanitizer and what it left behind.
void use_for_weeks(Draw& draw, WaterTest& water) {
  const std::string method = water.readings.at("ph").method;
  water.temperature_c = draw.between(20, 39);
  const bool is_on_bromine = draw.chance(0.3);
  const char* sanitizer = is_on_bromine ? "total_bromine_mg_l" : "free_chlorine_mg_l";
  water.readings[sanitizer] = {draw.between(0, 12), method};
  water.readings["cyanuric_acid_mg_l"] = {draw.between(0, 150), method};
}

WaterTest possible_water(Draw& draw, bool is_used) {
  for (;;) {
    WaterTest test = random_water(draw);
    if (is_used) use_for_weeks(draw, test);
    try {
      start_water(test, planning_data(), species_table());
      return test;
    } catch (const Error&) {
      continue;  // no such water: alkalinity that the pH forbids
    }
  }
}

void stock_shelf(Draw& draw, PlanRequest& request) {
  for (const char* id : {"sodium_bicarbonate", "soda_ash", "dry_acid", "muriatic_acid",
                         "calcium_chloride_dihydrate", "calcium_chloride_anhydrous"}) {
    if (draw.chance(0.75)) request.shelf.push_back(shelf_item(id));
  }
  if (draw.chance(0.5)) {
    request.shelf.push_back(shelf_item("sequestrant"));
    request.shelf.back().dose_ml_per_1000_l = draw.between(20, 100);
  }
  const SanitizerRow& row = sanitizer_row(planning_data().sanitizers, request.sanitizer.kind);
  for (const std::string& id : row.all_products()) {
    const bool is_first = id == row.products.front() ||
                          std::find(row.bank.begin(), row.bank.end(), id) != row.bank.end();
    if (draw.chance(is_first ? 0.95 : 0.4)) request.shelf.push_back(shelf_item(id));
  }
}

/// A sanitizer of which the set does not forbid every product.
std::string random_sanitizer(Draw& draw, const TargetSet& targets) {
  for (;;) {
    const SanitizerRow& row = draw.one_of(planning_data().sanitizers);
    const bool is_allowed =
        std::any_of(row.products.begin(), row.products.end(), [&](const std::string& id) {
          const Product product = shelf_item(id).product;
          return std::none_of(targets.forbids.begin(), targets.forbids.end(),
                              [&](const auto& group) { return product.in_group(group); });
        });
    if (is_allowed) return row.id;
  }
}

}  // namespace

PlanRequest random_request(std::uint64_t seed) {
  Draw draw(seed);
  PlanRequest request;
  request.fingerprint = "000000";
  request.tub.volume_l = draw.log_between(150, 12000);
  request.tub.volume_give_or_take = draw.between(0.01, 0.12);
  request.tub.shell = "acrylic";
  request.tub.bathing_temperature_c = draw.between(34, 40);
  request.water_is_in_tub = draw.chance(0.2);
  request.water = possible_water(draw, request.water_is_in_tub);
  if (draw.chance(0.2)) request.second_source = possible_water(draw, false);
  request.targets = draw.one_of(planning_data().target_sets);
  request.sanitizer.kind = random_sanitizer(draw, request.targets);
  request.sanitizer.mineral_cartridge = draw.chance(0.1);
  request.tub.use = draw.one_of(request.targets.uses);
  request.measure = draw.one_of(planning_data().measures);
  request.retest_with = draw.one_of(planning_data().test_methods);
  stock_shelf(draw, request);
  return request;
}

std::uint64_t law_jobs(std::uint64_t few) {
  const char* asked = std::getenv("TUB_LAW_JOBS");
  return asked == nullptr ? few : std::strtoull(asked, nullptr, 10);
}

}  // namespace tub::planning
