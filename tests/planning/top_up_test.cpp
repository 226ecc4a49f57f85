// What brings a reading back, held against stoichiometry and against the water engine itself.
#include "planning/pours/top_up.h"

#include <catch2/catch.hpp>

#include "chemistry/operations.h"
#include "planning/water/draft.h"
#include "random_job.h"
#include "sample_job.h"

using namespace tub;
using namespace tub::planning;

namespace {

std::vector<TopUpReading> top_ups_of(const PlanRequest& request) {
  const Plan plan = planned(request);
  return top_ups(request, planning_data(), species_table(), plan.final);
}

const TopUpReading& reading_in(const std::vector<TopUpReading>& all, Reading reading) {
  for (const TopUpReading& one : all) {
    if (one.reading == reading) return one;
  }
  throw std::runtime_error("no such reading");
}

double size_of(const Portion& portion) {
  return portion.amount_ml ? *portion.amount_ml : portion.amount_g.value_or(0);
}

/// The water that a test shows so, with the row's amount in it, by the same steps as `tubwright
/// water` takes.
double reading_after(const PlanRequest& request, const WaterState& final, Reading reading,
                     const TopUpSide& side, const TopUp& row) {
  Readings readings = final;
  for (const auto& key : reading_keys) {
    if (key.name == key_of(reading)) readings.*key.member = row.reads;
  }
  const Water water = [&] {
    try {
      return water_from_readings(readings, Balance::sodium, species_table());
    } catch (const Error&) {
      return water_from_readings(readings, Balance::chloride, species_table());
    }
  }();
  for (const ShelfItem& item : request.shelf) {
    if (item.product.id != side.product) continue;
    const Supply supply(item, species_table());
    const double mg_l = size_of(*row.portion) * supply.mg_per_size() / request.tub.volume_l;
    return value_of(reading, read(supply.add_to(water, mg_l), species_table()));
  }
  throw std::runtime_error("no such product");
}

}  // namespace

TEST_CASE("bicarbonate for alkalinity is what stoichiometry asks for") {
  const PlanRequest request = sample_request();
  const auto all = top_ups_of(request);
  const TopUpReading& alkalinity = reading_in(all, Reading::total_alkalinity);
  REQUIRE(alkalinity.low.product == "sodium_bicarbonate");
  REQUIRE(alkalinity.low.rows.size() >= 2);
  const Target& target = request.targets.readings.at(Reading::total_alkalinity);
  const double ideal = target.ideal.value_or((*target.low + *target.high) / 2);
  for (const TopUp& row : alkalinity.low.rows) {
    if (row.is_most) continue;
    // NaHCO3 84.006 g/mol, one equivalent; CaCO3 100.087 g/mol, two. Source: IUPAC standard weights
    const double grams =
        (ideal - row.reads) * 1e-3 * request.tub.volume_l * 84.006 / 50.0435 / 0.995;
    CHECK(*row.portion->amount_g == Approx(grams).margin(8));  // half a tablespoon
  }
}

TEST_CASE("each amount brings its reading into the target, or is the most at one time") {
  for (std::uint64_t seed = 1; seed <= 60; ++seed) {
    INFO("seed " << seed);
    const PlanRequest request = random_request(seed);
    const Plan plan = planned(request);
    for (const TopUpReading& one : top_ups(request, planning_data(), species_table(), plan.final)) {
      for (const TopUpSide* const side : {&one.low, &one.high}) {
        for (const TopUp& row : side->rows) {
          if (!row.portion) continue;
          const double reached = reading_after(request, plan.final, one.reading, *side, row);
          INFO(name_of(one.reading) << " reads " << row.reads << ", comes to " << reached);
          CHECK(reached == Approx(row.leads_to).margin(1e-6));
          CHECK(std::abs(reached - row.reads) > 0);
          const bool is_low = side == &one.low;
          // Never past the far edge.
          if (is_low && one.target.high) CHECK(reached <= *one.target.high + 1e-9);
          if (!is_low && one.target.low) CHECK(reached >= *one.target.low - 1e-9);
          CHECK((is_low ? reached > row.reads : reached < row.reads));
        }
      }
    }
  }
}

TEST_CASE(
    "the rows of a reading stand in the steps of the owner's test, from the target outwards") {
  for (std::uint64_t seed = 1; seed <= 40; ++seed) {
    INFO("seed " << seed);
    for (const TopUpReading& one : top_ups_of(random_request(seed))) {
      for (std::size_t i = 0; i < one.low.rows.size(); ++i) {
        CHECK(one.low.rows[i].reads < *one.target.low);
        if (i > 0) CHECK(one.low.rows[i].reads < one.low.rows[i - 1].reads);
      }
      for (std::size_t i = 0; i < one.high.rows.size(); ++i) {
        CHECK(one.high.rows[i].reads > *one.target.high);
        if (i > 0) CHECK(one.high.rows[i].reads > one.high.rows[i - 1].reads);
      }
    }
  }
}

TEST_CASE("soft acid water takes less acid for the same pH than hard: no number is scaled") {
  PlanRequest request = sample_request();
  const Plan plan = planned(request);
  WaterState soft = plan.final;
  WaterState hard = plan.final;
  soft.total_alkalinity_mg_l = 60;
  hard.total_alkalinity_mg_l = 180;
  request.measure = measure_system("grams");
  const auto grams = [&](const WaterState& water) {
    const auto all = top_ups(request, planning_data(), species_table(), water);
    return *reading_in(all, Reading::ph).high.rows.front().portion->amount_g;
  };
  CHECK(grams(soft) < 0.7 * grams(hard));
}

TEST_CASE("a shelf without acid has no amount for a high pH, and says so by naming no product") {
  PlanRequest request = sample_request();
  std::erase_if(request.shelf, [](const ShelfItem& item) { return item.product.in_group("acid"); });
  const auto all = top_ups_of(request);
  CHECK(reading_in(all, Reading::ph).high.product.empty());
  CHECK(reading_in(all, Reading::ph).high.rows.empty());
  CHECK_FALSE(reading_in(all, Reading::ph).low.rows.empty());
}

TEST_CASE("tablets are never weighed out: their floater is opened or taken out, and waited for") {
  PlanRequest request = sample_request();
  request.sanitizer.kind = "bromine_tablets";
  std::erase_if(request.shelf,
                [](const ShelfItem& item) { return item.product.in_group("sanitizer"); });
  request.shelf.push_back(shelf_item("bromine_tablets"));
  const auto all = top_ups_of(request);
  const TopUpReading& bromine = reading_in(all, Reading::total_bromine);
  for (const TopUpSide* const side : {&bromine.low, &bromine.high}) {
    CHECK(side->is_floater);
    CHECK(side->product.empty());
    REQUIRE(side->rows.size() == 1);
    CHECK_FALSE(side->rows.front().portion.has_value());
    CHECK(side->rows.front().wait_hours == 24);
  }
}
