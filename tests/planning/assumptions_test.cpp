// Assumptions: every constant is there, with a range that holds it and a source.
#include "planning/tables/assumptions.h"

#include <algorithm>
#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include "data_files.h"
#include "planning/tables/product.h"
#include "project_text.h"

namespace {

tub::planning::Assumptions assumptions() {
  return tub::planning::parse_assumptions(tub::project_text("src/planning/data/assumptions.json"),
                                          "assumptions.json");
}

}  // namespace

TEST_CASE("the constants of the plan are those that its design states") {
  const tub::planning::Assumptions found = assumptions();
  CHECK(found.overshoot_bound.value == 0.05);
  CHECK(found.first_pour_share.value == 0.75);
  CHECK(found.pour_ph.low == 7.0);
  CHECK(found.pour_ph.high == 8.2);
  CHECK(found.carbon_dioxide_lost_per_wait.high == 0.2);
  CHECK(found.bathing_temperature_c.value == 38);
  CHECK(found.saturation_index.low == -0.3);
  CHECK(found.saturation_index.high == 0.5);
}

TEST_CASE("the limits of metals are those of taste and stains") {
  // Source: US secondary drinking-water standards, from memory.
  const tub::planning::Assumptions found = assumptions();
  CHECK(found.metal_limits.at(tub::planning::Reading::iron).value == 0.3);
  CHECK(found.metal_limits.at(tub::planning::Reading::manganese).value == 0.05);
  CHECK(found.metal_limits.at(tub::planning::Reading::copper).value == 1.0);
  for (const auto& [metal, limit] : found.metal_limits) CHECK(limit.source.is_from_memory());
}

TEST_CASE("a constant that is missing or unknown is reported") {
  std::string found;
  try {
    tub::planning::parse_assumptions(R"({"assumptions": {"wait_minute": {}}, "metal_limits": {}})",
                                     "a.json");
  } catch (const tub::Error& error) {
    found = error.what();
  }
  CHECK(found.find("the field \"wait_minutes\" is missing") != std::string::npos);
  CHECK(found.find("did you mean wait_minutes?") != std::string::npos);
  CHECK(found.find("more like it") != std::string::npos);
}

TEST_CASE("a metal without its limit is reported") {
  auto data = nlohmann::json::parse(tub::project_text("src/planning/data/assumptions.json"));
  REQUIRE(data.at("metal_limits").erase("iron") == 1);
  std::string found;
  try {
    tub::planning::parse_assumptions(data.dump(), "a.json");
  } catch (const tub::Error& error) {
    found = error.what();
  }
  CHECK(found.find("the field \"iron\" is missing") != std::string::npos);
}

TEST_CASE("every acid and every chlorine has a row that says how often it is weak") {
  const tub::planning::Assumptions found = assumptions();
  const auto products = tub::planning::parse_products(
      tub::project_text("src/planning/data/products.json"), "products.json");
  for (const tub::planning::Product& product : products) {
    CAPTURE(product.id);
    const bool is_suspected = product.can(tub::planning::Purpose::lower_ph) ||
                              product.can(tub::planning::Purpose::sanitize_chlorine);
    CHECK((prior_of(found.reasons, "weak_product", product.id) != nullptr) == is_suspected);
  }
  for (const tub::planning::ReasonPrior& row : found.reasons) {
    CAPTURE(row.reason);
    CHECK(row.source.is_assumption());
    CHECK(row.how_far <= row.plausible.high);
    for (const std::string& id : row.products) {
      CHECK(std::any_of(products.begin(), products.end(),
                        [&](const tub::planning::Product& product) { return product.id == id; }));
    }
  }
}

TEST_CASE("dry chlorine is suspected less often than the water that it went into") {
  const tub::planning::Assumptions found = assumptions();
  const auto often = [&](const char* reason, const char* product = "") {
    return prior_of(found.reasons, reason, product)->often;
  };
  CHECK(often("weak_product", "dichlor_dihydrate") < often("demand") / 10);
  CHECK(often("weak_product", "sodium_hypochlorite") >= often("demand"));
}
