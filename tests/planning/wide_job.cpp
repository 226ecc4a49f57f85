#include "wide_job.h"

#include <algorithm>
#include <string>

#include "base/error.h"
#include "draw.h"
#include "planning/make_plan.h"
#include "planning/water/start_water.h"
#include "sample_job.h"

namespace tub::planning {
namespace {

/// Small values, none included, as often as large ones.
double from_none(Draw& draw, double most) {
  if (draw.chance(0.1)) return 0;
  return draw.chance(0.5) ? draw.log_between(most / 500, most) : draw.between(0, most);
}

/// Readings of one slip: what a job needs, and more or less of what it may hold.
class Slip {
 public:
  explicit Slip(Draw& draw) : draw_(draw), method_(draw.one_of(planning_data().test_methods).id) {}

  WaterTest fresh() {
    test_.temperature_c = draw_.between(4, 30);
    put("ph", draw_.between(5.5, 9));
    put("total_alkalinity_mg_l", from_none(draw_, 500));
    hardness();
    maybe(0.4, "conductivity_us_cm", draw_.log_between(20, 4000));
    maybe(0.15, "dissolved_solids_mg_l", draw_.log_between(20, 3000));
    maybe(0.4, "free_chlorine_mg_l", from_none(draw_, 3));
    maybe(0.25, "total_chlorine_mg_l", from_none(draw_, 4));
    maybe(0.2, "chloride_mg_l", from_none(draw_, 400));
    maybe(0.2, "sodium_mg_l", from_none(draw_, 300));
    maybe(0.3, "iron_mg_l", from_none(draw_, 3));
    maybe(0.2, "copper_mg_l", from_none(draw_, 2));
    return test_;
  }

  /// Of a tub in use: warm, with what it was kept with.
  WaterTest used() {
    fresh();
    test_.temperature_c = draw_.between(15, 40);
    test_.readings.erase("total_chlorine_mg_l");
    if (draw_.chance(0.4)) {
      test_.readings.erase("free_chlorine_mg_l");
      maybe(0.8, "total_bromine_mg_l", from_none(draw_, 15));
    } else {
      maybe(0.8, "free_chlorine_mg_l", from_none(draw_, 15));
      maybe(0.3, "combined_chlorine_mg_l", from_none(draw_, 3));
    }
    maybe(0.5, "cyanuric_acid_mg_l", from_none(draw_, 200));
    return test_;
  }

 private:
  void put(const std::string& key, double value) {
    const bool is_of_another_kit = draw_.chance(0.15);
    test_.readings[key] = {
        value, is_of_another_kit ? draw_.one_of(planning_data().test_methods).id : method_};
  }
  void maybe(double share, const std::string& key, double value) {
    if (draw_.chance(share)) put(key, value);
  }
  void hardness() {
    const double total = from_none(draw_, 1200);
    const double calcium = total * draw_.between(0.5, 1);
    if (draw_.chance(0.4)) put("total_hardness_mg_l", total);
    if (!test_.readings.contains("total_hardness_mg_l") || draw_.chance(0.3)) {
      put("calcium_hardness_mg_l", calcium);
    }
    maybe(0.15, "magnesium_hardness_mg_l", total - calcium);
  }

  Draw& draw_;
  std::string method_;
  WaterTest test_;
};

WaterTest possible_water(Draw& draw, bool is_used) {
  for (;;) {
    const WaterTest test = is_used ? Slip(draw).used() : Slip(draw).fresh();
    try {
      start_water(test, planning_data(), species_table());
      return test;
    } catch (const Error&) {
      continue;  // no such water
    }
  }
}

void stock_shelf(Draw& draw, PlanRequest& request) {
  const double share = draw.between(0.2, 1);
  for (const Product& product : planning_data().products) {
    if (!draw.chance(share)) continue;
    ShelfItem item = shelf_item(product.id);
    if (product.can(Purpose::hold_metals)) item.dose_ml_per_1000_l = draw.log_between(5, 200);
    request.shelf.push_back(item);
  }
}

/// A retest after some step of the plan so far, or a visit weeks later; stabiliser seldom.
RetestReport report(Draw& draw, const Plan& plan) {
  RetestReport report;
  report.date = "2027-01-11";
  report.where = "/readings/0";
  const WaterState& at = plan.final;
  const std::string method = draw.one_of(planning_data().test_methods).id;
  const auto found = [&](double share, Reading reading, double value) {
    const auto& rows = test_method(method).rows;
    if (!rows.contains(reading) || !draw.chance(share)) return;
    report.readings[std::string(key_of(reading))] = {std::max(0.0, value), method};
  };
  found(0.9, Reading::ph, at.ph + draw.between(-0.5, 0.5));
  found(0.6, Reading::total_alkalinity, at.total_alkalinity_mg_l * draw.between(0.6, 1.5));
  found(0.5, Reading::free_chlorine, at.free_chlorine_mg_l * draw.between(0, 2));
  found(0.2, Reading::total_bromine, at.total_bromine_mg_l * draw.between(0, 2));
  found(0.1, Reading::cyanuric_acid, at.cyanuric_acid_mg_l * draw.between(0.5, 2));
  if (draw.chance(0.5)) report.after_step = draw.one_of(plan.steps).number;
  return report;
}

/// Reports as far as a tub can show them.
void add_reports(Draw& draw, PlanRequest& request) {
  for (int i = 0; i < 2 && draw.chance(0.35); ++i) {
    try {
      PlanRequest longer = request;
      longer.retests.push_back(report(draw, make_plan(request, planning_data(), species_table())));
      if (longer.retests.back().readings.empty()) return;
      make_plan(longer, planning_data(), species_table());
      request = longer;
    } catch (const Error&) {
      return;  // no water can show that, or the plan has no such pour
    }
  }
}

}  // namespace

PlanRequest wide_request(std::uint64_t seed) {
  Draw draw(seed ^ (std::uint64_t{0x71D3} << 32U));
  PlanRequest request;
  request.fingerprint = "000000";
  request.tub.volume_l = draw.log_between(150, 12000);
  request.tub.volume_give_or_take = draw.log_between(0.01, 0.2);
  request.tub.shell = draw.chance(0.7) ? "acrylic" : "stainless_steel";
  request.tub.bathing_temperature_c = draw.between(20, 40);
  request.water_is_in_tub = draw.chance(0.4);
  request.water = possible_water(draw, request.water_is_in_tub);
  if (draw.chance(0.2)) request.second_source = possible_water(draw, false);
  request.targets = draw.one_of(planning_data().target_sets);
  request.sanitizer.kind = draw.one_of(planning_data().sanitizers).id;
  request.sanitizer.mineral_cartridge = draw.chance(0.15);
  request.tub.use = draw.one_of(request.targets.uses);
  request.measure = draw.one_of(planning_data().measures);
  request.retest_with = draw.one_of(planning_data().test_methods);
  stock_shelf(draw, request);
  add_reports(draw, request);
  return request;
}

}  // namespace tub::planning
