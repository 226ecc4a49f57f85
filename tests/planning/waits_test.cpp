#include "planning/steps/waits.h"

#include <catch2/catch.hpp>

namespace tub::planning {
namespace {

Step adding(const std::string& product, int pours) {
  Addition addition;
  addition.product = product;
  addition.portions.resize(static_cast<std::size_t>(pours));
  return {addition};
}

double wait_of(const Step& step, std::size_t pour) {
  return std::get<Addition>(step.what).portions.at(pour).wait_minutes;
}

const std::vector<HazardPair> two_hours = {
    {"carbonate", "calcium", "clouds", "spoils", 2, "assumption"}};

}  // namespace

TEST_CASE("partners one after the other are waited for after every pour of the first") {
  std::vector<Step> steps = {adding("carbonate", 2), adding("calcium", 2)};
  wait_for_partners(steps, two_hours);
  CHECK(wait_of(steps[0], 0) == 120);
  CHECK(wait_of(steps[0], 1) == 120);
  CHECK(wait_of(steps[1], 0) == 20);
  REQUIRE(steps[0].notes.size() == 1);
  CHECK(steps[0].notes[0].code == "waits_before_next");
}

TEST_CASE("what lies between counts, but only pours that are always made") {
  std::vector<Step> steps = {adding("carbonate", 2), adding("acid", 2), adding("sanitizer", 2),
                             adding("calcium", 1)};
  wait_for_partners(steps, two_hours);
  CHECK(wait_of(steps[0], 1) == 20);
  CHECK(wait_of(steps[1], 0) == 20);
  // 20 after the last carbonate, 20 after the acid, so 80 are missing after the sanitizer.
  CHECK(wait_of(steps[2], 0) == 80);
  CHECK(wait_of(steps[2], 1) == 20);
}

TEST_CASE("pairs that only must dissolve first need no more than the usual wait") {
  std::vector<Step> steps = {adding("acid", 1), adding("chlorine", 1)};
  wait_for_partners(steps, {{"acid", "chlorine", "chlorine_gas", "deadly", 0, ""}});
  CHECK(wait_of(steps[0], 0) == 20);
  CHECK(steps[0].notes.empty());
}

}  // namespace tub::planning
