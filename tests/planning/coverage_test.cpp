// Whether nine in ten tubs really end inside what a plan predicts: the same pours into waters and
// volumes drawn at random.
#include <catch2/catch.hpp>
#include <cmath>
#include <random>

#include "chemistry/operations.h"
#include "planning/make_plan.h"
#include "planning/situation.h"
#include "planning/spread.h"
#include "sample_job.h"

namespace tub {
namespace {

constexpr int draws = 4000;

/// One tub of many: how its slip, its volume and its products differ from what is planned with.
class Chance {
 public:
  explicit Chance(std::uint64_t seed) : engine_(seed) {}
  /// A share of a 90 % half-width.
  double share() { return normal_(engine_) / z_90; }

 private:
  std::mt19937_64 engine_;
  std::normal_distribution<double> normal_;
};

double half_width(const PlanRequest& request, Reading reading, const std::string& key) {
  const MeasuredReading& measured = request.water.readings.at(key);
  return test_method(measured.method).rows.at(reading).half_width_at(measured.value);
}

Readings drawn_start(const PlanRequest& request, const Plan& plan, Chance& chance) {
  Readings start = plan.start;
  start.ph += chance.share() * half_width(request, Reading::ph, "ph");
  start.total_alkalinity_mg_l +=
      chance.share() * half_width(request, Reading::total_alkalinity, "total_alkalinity_mg_l");
  start.calcium_hardness_mg_l +=
      chance.share() * half_width(request, Reading::calcium_hardness, "calcium_hardness_mg_l");
  return start;
}

/// More or less of a product than is planned: its strength, and the spoon.
double drawn_dose(const PlanRequest& request, const Product& product, Chance& chance) {
  double factor = 1 + chance.share() * product.strength_half_width;
  factor *= 1 - std::abs(chance.share()) * product.strength_loss;
  if (request.measure.spoons.empty()) return factor;
  double spoon = request.measure.spoon_half_width;
  if (product.bulk_density_range_g_ml) {
    const Range& range = *product.bulk_density_range_g_ml;
    spoon = std::hypot(spoon, (range.high - range.low) / 2 / *product.bulk_density_g_ml);
  }
  return factor * (1 + chance.share() * spoon);
}

const Product& product_of(const PlanRequest& request, const std::string& id) {
  for (const ShelfItem& item : request.shelf) {
    if (item.product.id == id) return item.product;
  }
  throw std::runtime_error("not on the shelf: " + id);
}

Water drawn_final(const PlanRequest& request, const Plan& plan, Chance& chance) {
  Water water =
      water_from_readings(drawn_start(request, plan, chance), Balance::chloride, species_table());
  const double volume = plan.volume_l * (1 + chance.share() * plan.volume_give_or_take);
  for (const Step& step : plan.steps) {
    const auto* addition = std::get_if<Addition>(&step.what);
    if (addition == nullptr) continue;
    const double factor = drawn_dose(request, product_of(request, addition->product), chance);
    for (const auto& [formula, grams] : addition->adds_g) {
      water = add(water, formula, grams * factor * 1000 / volume, species_table());
    }
    for (const auto& [key, mg_l] : addition->spends) water = spend_free_chlorine(water, mg_l);
  }
  return heat(water, celsius(plan.final.temperature_c));
}

void check_coverage(const PlanRequest& request) {
  const Plan plan = make_plan(request, planning_data(), species_table());
  Chance chance(11);
  std::map<Reading, int> inside;
  for (int i = 0; i < draws; ++i) {
    const WaterState final = read(drawn_final(request, plan, chance), species_table());
    for (const Reading reading : {Reading::ph, Reading::total_alkalinity, Reading::calcium_hardness,
                                  Reading::free_chlorine}) {
      const Range& range = plan.final_range.at(std::string(key_of(reading)));
      inside[reading] += range.holds(value_of(reading, final)) ? 1 : 0;
    }
  }
  for (const auto& [reading, count] : inside) {
    const double share = static_cast<double>(count) / draws;
    CAPTURE(name_of(reading), share);
    CHECK(share >= 0.88);
    CHECK(share <= 0.92);
  }
}

}  // namespace

TEST_CASE("nine in ten tubs dosed by spoon end inside the predicted ranges") {
  check_coverage(sample_request());
}

TEST_CASE("nine in ten tubs dosed by scale and photometer end inside the predicted ranges") {
  PlanRequest request = request_for_water(7.9, 62, 89);
  for (auto& [key, reading] : request.water.readings) reading.method = "photometer";
  request.measure = measure_system("grams");
  check_coverage(request);
}

TEST_CASE("nine in ten tubs of uncertain volume, with stale hypochlorite, end inside") {
  PlanRequest request = request_for_water(8.1, 80, 120);
  request.tub.volume_give_or_take = 0.12;
  request.sanitizer.kind = "sodium_hypochlorite";
  request.shelf.push_back(shelf_item("sodium_hypochlorite"));
  check_coverage(request);
}

}  // namespace tub
