// Measures: spoons hold what their definitions say.
#include "planning/tables/measure.h"

#include <catch2/catch.hpp>
#include <map>
#include <set>

#include "data_files.h"
#include "project_text.h"

namespace {

std::vector<tub::planning::MeasureSystem> all_measures() {
  return tub::planning::parse_measures(tub::project_text("src/planning/data/measures.json"),
                                       "measures.json");
}

}  // namespace

TEST_CASE("every measure that a job may name has a row") {
  std::set<std::string> found;
  for (const auto& system : all_measures()) found.insert(system.id);
  CHECK(found == std::set<std::string>{"grams", "grams_and_us_spoons", "grams_and_metric_spoons",
                                       "ounces", "ounces_and_us_spoons"});
}

TEST_CASE("spoons hold their defined volumes") {
  // Source: 1 US gallon = 231 cubic inches = 16 cups = 256 tablespoons = 768 teaspoons (exact);
  // metric spoons of 5 and 15 mL, cup of 250 mL (from memory).
  constexpr double us_gallon_ml = 231 * 2.54 * 2.54 * 2.54;
  const std::map<std::string, double> defined = {
      {"us_teaspoon", us_gallon_ml / 768}, {"us_tablespoon", us_gallon_ml / 256},
      {"us_cup", us_gallon_ml / 16},       {"metric_teaspoon", 5},
      {"metric_tablespoon", 15},           {"metric_cup", 250}};
  for (const auto& system : all_measures()) {
    for (const tub::planning::Spoon& spoon : system.spoons) {
      INFO(spoon.unit);
      CHECK(spoon.volume_ml == Approx(defined.at(spoon.unit)).epsilon(1e-12));
    }
    CHECK((system.spoons.empty() || system.spoon_half_width > 0));
  }
}

TEST_CASE("scales are read to a gram below 100 g and to five above, or to a tenth of an ounce") {
  // Source: assumptions that the planner's design states.
  for (const auto& system : all_measures()) {
    INFO(system.id);
    CHECK(system.sources.at("grains").is_assumption());
    if (system.mass_unit == "oz") {
      CHECK(system.grain_oz == 0.1);
    } else {
      CHECK(system.grain_g == 1);
      CHECK(system.coarse_grain_g == 5);
      CHECK(system.coarse_from_g == 100);
      CHECK(system.grain_ml == 5);
    }
  }
}
