// An amount is rounded once: its weight, its volume and its spoons say the same.
#include <catch2/catch.hpp>
#include <cmath>
#include <string>

#include "../planning/random_job.h"
#include "../planning/sample_job.h"
#include "base/text.h"
#include "fixture.h"
#include "planning/make_plan.h"
#include "planning/pours/measuring.h"
#include "sheets/template/wording.h"

namespace tub::sheets {
namespace {

/// What stands beside spoons is shown in steps of a tenth of it at most. Assumption: of the plan's
/// own, well within what a spoon is off by (a tenth).
constexpr double tolerance = 0.05;

/// A quantity as it is printed: "0.35 oz".
struct Printed {
  double number = 0;
  double half_last_place = 0;
  double unit_size = 1;  ///< in grams or millilitres
};

Printed printed(const std::string& text) {
  Printed result;
  const std::size_t end = text.find_first_not_of("0123456789.");
  const std::string digits = text.substr(0, end);
  const std::size_t point = digits.find('.');
  const auto decimals = point == std::string::npos ? 0 : digits.size() - point - 1;
  result.number = to_number(digits).value();
  result.half_last_place = 0.5 * std::pow(10.0, -static_cast<double>(decimals));
  // By definition: the international avoirdupois ounce, the US customary fluid ounce.
  if (text.find("fl\u00A0oz") != std::string::npos || text.find("fl oz") != std::string::npos) {
    result.unit_size = 29.5735295625;
  } else if (text.find("oz") != std::string::npos) {
    result.unit_size = 28.349523125;
  }
  return result;
}

double spoon_ml(const MeasureSystem& system, const std::string& unit) {
  for (const Spoon& spoon : system.spoons) {
    if (spoon.unit == unit) return spoon.volume_ml;
  }
  return 0;
}

/// What the spoons of a portion hold, g or mL; 0 if there are none.
double held_by_spoons(const Portion& portion, const Product& product, const MeasureSystem& system) {
  double ml = 0;
  for (const Measure& measure : portion.measure)
    ml += measure.count * spoon_ml(system, measure.unit);
  return product.form == Form::liquid ? ml : ml * product.bulk_density_g_ml.value_or(0);
}

/// Nothing, or by how much the printed figures of a portion differ.
std::string disagreement(const Portion& portion, const std::string& product_id,
                         const MeasureSystem& system) {
  Heading heading = test::quince_row_heading();
  heading.weighs_in = system.mass_unit == "oz" ? UnitSystem::us : UnitSystem::metric;
  const Plan plan;
  const SheetSources sources{plan, heading, planning_data().products, ""};
  const Wording wording(sources, test::english());
  const double held = held_by_spoons(portion, wording.product(product_id), system);
  if (held <= 0) return "";
  const std::string text = wording.amount(portion, product_id).text;
  const Printed shown = printed(text);
  const double off = std::abs(held - shown.number * shown.unit_size);
  if (off <= shown.half_last_place * shown.unit_size + tolerance * held) return "";
  return text + " beside spoons that hold " + fixed(held, 3);
}

}  // namespace

TEST_CASE("ounces, grams and spoons of one amount agree within what is printed") {
  for (const MeasureSystem& system : planning_data().measures) {
    for (const Product& product : planning_data().products) {
      if (product.form == Form::tablets) continue;
      for (double size = 0.5; size < 3000; size *= 1.13) {
        const Measuring::Amount amount = Measuring(system, product, size).nearest(size);
        if (amount.size <= 0) continue;
        Portion portion;
        (product.form == Form::liquid ? portion.amount_ml : portion.amount_g) = amount.size;
        portion.measure = amount.measure;
        CAPTURE(system.id, product.id, size);
        CHECK(disagreement(portion, product.id, system) == "");
      }
    }
  }
}

TEST_CASE("a plan is made from the weight that stands beside its spoons, by every measure") {
  int spooned = 0;
  for (std::uint64_t seed = 0; seed < 25; ++seed) {
    for (const MeasureSystem& system : planning_data().measures) {
      PlanRequest request = random_request(seed);
      request.measure = system;
      const Plan plan = make_plan(request, planning_data(), species_table());
      for (const Step& step : plan.steps) {
        const auto* const addition = std::get_if<Addition>(&step.what);
        if (addition == nullptr) continue;
        for (const Portion& portion : addition->portions) {
          CAPTURE(seed, system.id, addition->product);
          CHECK(disagreement(portion, addition->product, system) == "");
          spooned += portion.measure.empty() ? 0 : 1;
        }
      }
    }
  }
  CHECK(spooned > 100);
}

TEST_CASE("a quarter teaspoon of dichlor is not printed as a tenth of an ounce") {
  Plan plan;
  const MeasureSystem system = measure_system("ounces_and_us_spoons");
  const ShelfItem item = shelf_item("dichlor_dihydrate");
  const Measuring::Amount amount = Measuring(system, item.product, 1.2).nearest(1.2);
  CHECK(amount.measure.back() == Measure{0.25, "us_teaspoon"});
  // A US teaspoon holds 4.929 mL (21 CFR 101.9 with the exact customary values).
  CHECK(amount.size == Approx(0.25 * 4.929 * *item.product.bulk_density_g_ml).epsilon(0.05));
}

}  // namespace tub::sheets
