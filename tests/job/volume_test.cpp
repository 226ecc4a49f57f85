#include <catch2/catch.hpp>
#include <numbers>

#include "job_test.h"

using namespace tub;
using namespace tub::job;
using namespace tub::job::test;

namespace {

Tub vessel(const std::string& fields) {
  return read(patched(R"({ "vessel": { "volume": null, )" + fields + " } }")).value.request.tub;
}

}  // namespace

TEST_CASE("a rectangular vessel holds length times width times depth, less its benches") {
  const Tub tub =
      vessel(R"("dimensions": { "shape": "rectangle", "length": "2 m", "width": "150 cm",
      "water_depth": "0.8 m", "benches": [ { "length": "2 m", "width": "0.4 m", "height": "0.5 m" } ] })");
  CHECK(tub.volume_l == Approx(2000 * 1.5 * 0.8 - 2000 * 0.4 * 0.5));
  CHECK(tub.volume_give_or_take == Approx(0.10));
}

TEST_CASE("round and oval vessels hold the circle's share of their box") {
  CHECK(vessel(R"("dimensions": { "shape": "round", "diameter": "6 ft", "water_depth": "30 in" })")
            .volume_l == Approx(1000 * std::numbers::pi / 4 * 1.8288 * 1.8288 * 0.762));
  CHECK(vessel(R"("dimensions": { "shape": "oval", "length": "2.2 m", "width": "1.6 m",
                                  "water_depth": "0.7 m" })")
            .volume_l == Approx(1000 * std::numbers::pi / 4 * 2.2 * 1.6 * 0.7));
}

TEST_CASE("a fill's time and flow give the volume") {
  CHECK(vessel(R"("fill": { "time": "34 min", "flow": "10 US gal/min" })").volume_l ==
        Approx(340 * 3.785411784));
}

TEST_CASE("what a known amount raised gives the volume, with its uncertainty") {
  // 100 g of bicarbonate at 99.5 % are 1.18443 mol (84.007 g/mol), each one equivalent of
  // alkalinity, 50.043 mg as CaCO3: 59,272 mg. A rise of 40 mg/L makes it 1481.8 L.
  const Tub tub = read(patched(R"({ "retest_with": "drop_kit", "vessel": { "volume": null,
      "dilution": { "product": "sodium_bicarbonate", "amount": "100 g",
                    "reading": "total_alkalinity", "before": "60 mg/L", "after": "100 mg/L" } } })"))
                      .value.request.tub;
  CHECK(tub.volume_l == Approx(1481.8).epsilon(1e-3));
  // A drop kit tells alkalinity to 10 mg/L either way: sqrt(2) × 10 of 40 is 0.354.
  CHECK(tub.volume_give_or_take == Approx(0.354).epsilon(0.02));
}

TEST_CASE("of two volumes that agree the more certain one counts, and is said to") {
  const auto outcome =
      read(patched(R"({ "vessel": { "volume": { "value": "1340 L", "give_or_take": "15 %" },
      "fill": { "time": "33 min", "flow": "40 L/min" } } })"));
  CHECK(outcome.value.request.tub.volume_l == Approx(1320));
  REQUIRE(outcome.warnings.size() == 1);
  CHECK(outcome.warnings.front().message ==
        "the plan is for 1320 L ±10 % by the vessel's fill; its volume agrees with 1340 L ±15 %");
}

TEST_CASE("a dilution may have been tested with something else than the retest") {
  const Tub tub = vessel(R"("dilution": { "product": "sodium_bicarbonate", "amount": "100 g",
      "reading": "total_alkalinity", "before": "60 mg/L", "after": "100 mg/L",
      "tested_with": "photometer" })");
  // 8 % of 60 and of 100, and 1 % of strength: sqrt(4.8^2 + 8^2) of 40 is 0.233.
  CHECK(tub.volume_give_or_take == Approx(0.233).epsilon(0.02));
}
