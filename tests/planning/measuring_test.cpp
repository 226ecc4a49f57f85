#include "planning/pours/measuring.h"

#include <catch2/catch.hpp>

#include "planning/make_plan.h"
#include "planning/pours/divisions.h"
#include "sample_job.h"

namespace tub::planning {

TEST_CASE("a division's multiples print short") {
  CHECK(divisions(38, 0.2) == 7.6);
  CHECK(division_down(7.64, 0.2) == 7.6);
  CHECK(division_up(7.44, 0.2) == 7.6);
  CHECK(division_down(7.6, 0.2) == 7.6);
  CHECK(division_up(7.6, 0.2) == 7.6);
  CHECK(division_nearest(52.5, 5) == 55);
}

TEST_CASE("a scale is read in grams below a hundred, in fives above") {
  const ShelfItem item = shelf_item("sodium_bicarbonate");
  const Measuring by(measure_system("grams"), item.product, 133.4);
  CHECK(by.down(97.8).size == 97);
  CHECK(by.nearest(97.8).size == 98);
  CHECK(by.down(133.4).size == 130);
  CHECK(by.nearest(133.4).size == 135);
  CHECK(by.down(0.9).size == 0);
  CHECK(by.down(97.8).measure.empty());
}

TEST_CASE("spoons come whole, and the grams beside them follow from the spoons") {
  ShelfItem item = shelf_item("sodium_bicarbonate");
  item.product.bulk_density_g_ml = 1.0;
  const Measuring by(measure_system("grams_and_us_spoons"), item.product, 90);
  const Measuring::Amount amount = by.down(95);
  REQUIRE(amount.measure.size() == 1);
  // A US tablespoon is 14.787 mL (21 CFR 101.9 with the exact customary values): 6 hold 88.7 g.
  CHECK(amount.measure.front() == Measure{6, "us_tablespoon"});
  CHECK(amount.size == 89);
}

TEST_CASE("a little is measured in teaspoons, a lot in cups") {
  const ShelfItem item = shelf_item("dry_acid");
  const MeasureSystem system = measure_system("grams_and_us_spoons");
  CHECK(Measuring(system, item.product, 13).nearest(13).measure.front().unit == "us_teaspoon");
  CHECK(Measuring(system, item.product, 900).nearest(900).measure.front().unit == "us_cup");
}

TEST_CASE("metric cups hold 250 mL, and a quarter of one is the least of them") {
  ShelfItem item = shelf_item("sodium_bicarbonate");
  item.product.bulk_density_g_ml = 1.0;
  const Measuring by(measure_system("grams_and_metric_spoons"), item.product, 700);
  const Measuring::Amount amount = by.nearest(700);
  CHECK(amount.measure.front() == Measure{2.75, "metric_cup"});
  CHECK(amount.size == 690);  // 687.5 g, in the scale's fives
}

TEST_CASE("a liquid is measured in spoons of its volume, whatever it weighs") {
  const ShelfItem bleach = shelf_item("sodium_hypochlorite");
  const Measuring by(measure_system("grams_and_metric_spoons"), bleach.product, 22);
  CHECK(by.nearest(22).measure.front() == Measure{1.5, "metric_tablespoon"});
}

TEST_CASE("what is dosed by spoon is foreseen less surely than what is weighed") {
  PlanRequest by_spoon = request_for_water(7.9, 62, 200);
  PlanRequest by_scale = by_spoon;
  by_scale.measure = measure_system("grams");
  const auto width = [](const PlanRequest& request) {
    const Plan plan = planned(request);
    const Range& range = plan.final_range.at("total_alkalinity_mg_l");
    return range.high - range.low;
  };
  CHECK(width(by_spoon) > 1.1 * width(by_scale));
}

TEST_CASE("ounces are of weight for granules and of volume for liquids") {
  const ShelfItem acid = shelf_item("dry_acid");
  const Measuring granules(measure_system("ounces"), acid.product, 100);
  // 1 oz = 28.349523125 g, by definition.
  CHECK(granules.nearest(100).measure.front() == Measure{3.5, "oz"});
  CHECK(granules.nearest(100).size == Approx(3.5 * 28.349523125));
  const ShelfItem bleach = shelf_item("sodium_hypochlorite");
  const Measuring liquid(measure_system("ounces"), bleach.product, 100);
  CHECK(liquid.nearest(100).measure.front() == Measure{3.4, "us_fluid_ounce"});
}

TEST_CASE("what is too fine for a kitchen scale is measured to a tenth of a gram") {
  CHECK(Measuring::finely().nearest(0.27).size == 0.3);
}

}  // namespace tub::planning
