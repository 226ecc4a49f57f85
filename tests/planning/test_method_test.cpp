// Test methods: what a strip, a drop kit and a photometer can tell.
#include "planning/tables/test_method.h"

#include <catch2/catch.hpp>

#include "data_files.h"
#include "project_text.h"

namespace {

using tub::planning::Reading;
using tub::planning::TestMethod;

TestMethod method(const std::string& id) {
  const std::string text = tub::project_text("src/planning/data/test_methods.json");
  for (const TestMethod& row : tub::planning::parse_test_methods(text, "test_methods.json")) {
    if (row.id == id) return row;
  }
  FAIL("no test method " + id);
  return {};
}

}  // namespace

TEST_CASE("each kind of test is as fine as the plan takes it to be") {
  // Source: assumptions that the planner's design states; none is a maker's figure.
  struct Figure {
    std::string method;
    Reading reading;
    double division;
    double half_width_at_200;
  };
  const std::vector<Figure> figures = {
      {"strip", Reading::ph, 0.2, 0.3},
      {"strip", Reading::total_alkalinity, 20, 20},
      {"strip", Reading::calcium_hardness, 50, 50},
      {"strip", Reading::free_chlorine, 1, 1},
      {"drop_kit", Reading::ph, 0.2, 0.15},
      {"drop_kit", Reading::total_alkalinity, 10, 10},
      {"drop_kit", Reading::calcium_hardness, 10, 10},
      {"drop_kit", Reading::free_chlorine, 0.5, 0.4},
      {"photometer", Reading::ph, 0.1, 0.1},
      {"photometer", Reading::total_alkalinity, 1, 16},
      {"photometer", Reading::calcium_hardness, 1, 20},
  };
  for (const Figure& figure : figures) {
    const tub::planning::TestRow row = method(figure.method).rows.at(figure.reading);
    INFO(figure.method << " " << tub::planning::name_of(figure.reading));
    CHECK(row.division == figure.division);
    CHECK(row.half_width_at(200) == Approx(figure.half_width_at_200));
  }
}

TEST_CASE("a strip does not show metals") {
  for (const Reading metal : {Reading::copper, Reading::iron, Reading::manganese}) {
    CHECK(method("strip").rows.count(metal) == 0);
    CHECK(method("photometer").rows.count(metal) == 1);
  }
}

TEST_CASE("the error of a test is at least half of its division") {
  for (const std::string id : {"strip", "drop_kit", "photometer"}) {
    for (const auto& [reading, row] : method(id).rows) {
      INFO(id << " " << tub::planning::name_of(reading));
      CHECK(row.half_width_at(0) >= row.division / 2);
      CHECK_FALSE(row.source.text.empty());
    }
  }
}
