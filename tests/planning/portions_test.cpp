#include "planning/pours/portions.h"

#include <catch2/catch.hpp>
#include <limits>

#include "sample_job.h"

namespace tub::planning {
namespace {

constexpr double unlimited = std::numeric_limits<double>::infinity();

PourRules rules_with(double limit, std::function<double(double)> overshoot) {
  PourRules rules;
  rules.limit = limit;
  rules.total_limit = unlimited;
  rules.overshoot = std::move(overshoot);
  return rules;
}

double never(double) { return 0; }

Measuring in_grams() {
  static const Product product = shelf_item("dry_acid").product;
  return Measuring(measure_system("grams"), product, 100);
}

}  // namespace

TEST_CASE("the first pour is three quarters where nothing stands against it") {
  CHECK(first_pour(100, rules_with(unlimited, never)) == 75);
}

TEST_CASE("the first pour is no more than one pour may be, and leaves no more than that") {
  CHECK(first_pour(100, rules_with(60, never)) == 60);
  CHECK(first_pour(100, rules_with(52, never)) == 52);
}

TEST_CASE("the first pour is the largest that seldom passes the far edge, but at least a third") {
  const auto passes_from_50 = [](double pour) { return pour > 50 ? 0.2 : 0.01; };
  const double first = first_pour(100, rules_with(unlimited, passes_from_50));
  CHECK(first <= 50);
  CHECK(first > 47);
  const auto always = [](double) { return 0.5; };
  CHECK(first_pour(99, rules_with(unlimited, always)) == Approx(33));
}

TEST_CASE("the first pour is rounded down and the second to the nearest") {
  const auto pours = split(61.4, rules_with(unlimited, never), in_grams()).pours;
  REQUIRE(pours.size() == 2);
  CHECK(pours[0].size == 46);  // of 46.05
  CHECK(pours[1].size == 15);  // of 15.4
}

TEST_CASE("under three of the smallest measure it is one pour") {
  CHECK(split(2.9, rules_with(unlimited, never), in_grams()).pours.size() == 1);
  CHECK(split(3.0, rules_with(unlimited, never), in_grams()).pours.size() == 2);
  CHECK(split(0.3, rules_with(unlimited, never), in_grams()).pours.empty());
}

TEST_CASE("rounding lifts no pour above its limit, nor all of them above theirs") {
  PourRules rules = rules_with(20.4, never);
  rules.total_limit = 40.2;
  const auto pours = split(40.6, rules, in_grams()).pours;
  REQUIRE(pours.size() == 2);
  CHECK(pours[0].size <= 20.4);
  CHECK(pours[1].size <= 20.4);
  CHECK(pours[0].size + pours[1].size <= 40.2);
}

}  // namespace tub::planning
