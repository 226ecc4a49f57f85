// pH and alkalinity together: which means, how much, in which order.
#include "planning/goals/balance.h"
#include "base/text.h"

#include <catch2/catch.hpp>

#include "planning/goals/objective.h"
#include "sample_job.h"

namespace tub::planning {
namespace {

Frame plain_frame() { return {{HeatMove{27}}, {HeatMove{38}}}; }

/// What is done, in order: product identifiers, "air" and "rounds".
std::vector<std::string> means(const Draft& moves) {
  std::vector<std::string> names;
  for (const Move& move : moves) {
    if (const auto* dose = std::get_if<DoseMove>(&move)) {
      names.push_back(dose->supply->product().id);
    } else {
      names.emplace_back(std::holds_alternative<RoundsMove>(move) ? "rounds" : "air");
    }
  }
  return names;
}

struct Balanced {
  std::vector<std::string> means;
  WaterState final;
};

Balanced balanced_water(const PlanRequest& request) {
  const Situation situation(request, planning_data(), species_table());
  const Frame frame = plain_frame();
  const Draft moves = balanced(situation, frame).moves;
  const Water final = situation.bench.after(situation.start.water, frame.around(moves));
  return {means(moves), situation.bench.state(final)};
}

}  // namespace

TEST_CASE("water inside both bands is left alone") {
  CHECK(balanced_water(request_for_water(7.6, 120, 150)).means.empty());
}

TEST_CASE("low alkalinity and high pH take bicarbonate and acid, and come to both aims") {
  const Balanced water = balanced_water(request_for_water(7.9, 62, 89));
  CHECK(water.means == Names{"sodium_bicarbonate", "dry_acid"});
  CHECK(water.final.ph > 7.4);
  CHECK(water.final.ph < 7.6);
  CHECK(water.final.total_alkalinity_mg_l > 100);
}

TEST_CASE("high pH alone takes acid alone") {
  CHECK(balanced_water(request_for_water(8.2, 130, 89)).means == Names{"dry_acid"});
}

TEST_CASE("low pH at a good alkalinity needs no product: carbon dioxide is let out") {
  const Balanced water = balanced_water(request_for_water(7.2, 120, 89));
  CHECK(water.means == Names{"air"});
  CHECK(water.final.ph > 7.4);
}

TEST_CASE("high alkalinity is acid in rounds, with air between") {
  const Balanced water = balanced_water(request_for_water(7.6, 300, 89));
  CHECK(water.means == Names{"rounds", "dry_acid", "air"});
  CHECK(water.final.total_alkalinity_mg_l < 150);
  CHECK(water.final.ph > 7.4);
  CHECK(water.final.ph < 7.6);
}

TEST_CASE("without bicarbonate, soda ash goes as far as pH allows") {
  PlanRequest request = request_for_water(7.4, 60, 89);
  std::erase_if(request.shelf, [](const ShelfItem& item) {
    return item.product.id == "sodium_bicarbonate" || item.product.id == "dry_acid";
  });
  const Balanced water = balanced_water(request);
  CHECK(water.means == Names{"soda_ash"});
  CHECK(water.final.ph < 7.6);
  CHECK(water.final.total_alkalinity_mg_l > 60);
}

TEST_CASE("fewer additions are better than less time, and less time than less product") {
  Score few{};
  few.additions = 1;
  few.hours = 8;
  Score quick{};
  quick.additions = 2;
  quick.hours = 1;
  CHECK(is_better(few, quick));
  Score light = few;
  light.hours = 9;
  light.grams = 1;
  few.grams = 100;
  CHECK(is_better(few, light));
  Score unmet = few;
  unmet.unmet = 1;
  unmet.additions = 0;
  CHECK(is_better(few, unmet));
}

TEST_CASE("the milder of two acids is taken, whatever the order of the shelf") {
  PlanRequest request = request_for_water(8.2, 130, 89);
  request.shelf.insert(request.shelf.begin(), shelf_item("muriatic_acid"));
  CHECK(balanced_water(request).means == Names{"dry_acid"});
}

}  // namespace tub::planning
