// Target sets: their figures are those of their authorities, and nothing else.
#include "planning/tables/targets.h"

#include <catch2/catch.hpp>
#include <set>

#include "base/text.h"
#include "data_files.h"
#include "project_text.h"

namespace {

using tub::planning::Reading;
using tub::planning::Target;
using tub::planning::TargetSet;

const std::string file = "src/planning/data/targets.json";

std::vector<TargetSet> all_sets() {
  return tub::planning::parse_target_sets(tub::project_text(file), "targets.json");
}

TargetSet set_named(const std::string& id) {
  for (const TargetSet& set : all_sets()) {
    if (set.id == id) return set;
  }
  FAIL("no set " + id);
  return {};
}

std::optional<double> cell(const tub::planning::testing::CsvRow& row, const std::string& column) {
  return tub::to_number(row.at(column));
}

std::string complaint(const std::string& text) {
  try {
    tub::planning::parse_target_sets(text, "t.json");
    return "";
  } catch (const tub::Error& error) {
    return error.what();
  }
}

}  // namespace

TEST_CASE("published sets have the figures of their authorities") {
  for (const auto& row : tub::planning::testing::reference_rows("water_targets.csv")) {
    const TargetSet set = set_named(row.at("id"));
    const Reading reading = *tub::planning::reading_named(row.at("reading"));
    INFO(set.id << " " << row.at("reading"));
    REQUIRE(set.readings.count(reading) == 1);
    const Target target = set.readings.at(reading);
    // The band is the ideal range where the authority gives one.
    CHECK(target.low == (cell(row, "ideal_min") ? cell(row, "ideal_min") : cell(row, "min")));
    const bool of_total_chlorine = row.at("note") == "tc";
    if (!of_total_chlorine) {
      CHECK(target.high == (cell(row, "ideal_max") ? cell(row, "ideal_max") : cell(row, "max")));
    }
    if (target.bathe_low) CHECK(target.bathe_low == cell(row, "min"));
    if (target.stop && !target.stop_is_assumed) CHECK(target.stop == cell(row, "max"));
    if (row.at("seen") == "0") CHECK((set.from_memory || target.source->is_from_memory()));
  }
}

TEST_CASE("a published set says nothing that its authority does not") {
  std::set<std::pair<std::string, std::string>> published;
  for (const auto& row : tub::planning::testing::reference_rows("water_targets.csv")) {
    published.insert({row.at("id"), row.at("reading")});
  }
  int sets = 0;
  for (const TargetSet& set : all_sets()) {
    if (set.id == "common_practice") continue;
    ++sets;
    CHECK_FALSE(set.authority.empty());
    CHECK_FALSE(set.source.empty());
    for (const auto& [reading, target] : set.readings) {
      INFO(set.id << " " << tub::planning::name_of(reading));
      CHECK(published.count({set.id, std::string(tub::planning::name_of(reading))}) == 1);
    }
  }
  CHECK(sets >= 5);
}

TEST_CASE("every set has the gate of pH and a sanitizer, and only assumes a stop of 10 mg/L") {
  for (const TargetSet& set : all_sets()) {
    INFO(set.id);
    REQUIRE(set.readings.count(Reading::ph) == 1);
    REQUIRE(set.readings.count(Reading::free_chlorine) == 1);
    for (const Reading reading : {Reading::ph, Reading::free_chlorine}) {
      CHECK(set.readings.at(reading).bathe_low);
      CHECK(set.readings.at(reading).stop);
    }
    for (const auto& [reading, target] : set.readings) {
      if (target.stop_is_assumed) CHECK(target.stop == 10);
    }
    CHECK(set.temperature_max_c <= 40);
  }
}

TEST_CASE("common practice is what the trade uses, for private tubs alone") {
  // Source: common practice, no source; the gate is that of HSE HSG282 (2017).
  const TargetSet set = set_named("common_practice");
  CHECK(set.uses == std::vector<std::string>{"private"});
  const auto is = [&](Reading reading, double low, double high) {
    return set.readings.at(reading).low == low && set.readings.at(reading).high == high;
  };
  CHECK(is(Reading::ph, 7.4, 7.6));
  CHECK(is(Reading::total_alkalinity, 100, 150));
  CHECK(is(Reading::calcium_hardness, 175, 250));
  CHECK(is(Reading::free_chlorine, 1, 3));
  CHECK(is(Reading::total_bromine, 3, 5));
  CHECK(set.readings.at(Reading::free_chlorine).ideal == 3);
  CHECK_FALSE(set.readings.at(Reading::total_alkalinity).bathe_low);
  CHECK_FALSE(set.readings.at(Reading::calcium_hardness).stop);
  const tub::planning::Gate gate =
      tub::planning::parse_gate(tub::project_text(file), "targets.json");
  for (const Reading reading : {Reading::free_chlorine, Reading::total_bromine}) {
    CHECK(gate.readings.at(reading).low == set.readings.at(reading).bathe_low);
    CHECK(gate.readings.at(reading).high == set.readings.at(reading).stop);
  }
}

TEST_CASE("stabilised chlorine is forbidden where the authority does not allow it") {
  CHECK(set_named("us_mahc_2023").forbids == std::vector<std::string>{"stabilised_chlorine"});
  CHECK(set_named("au_nsw_2012").forbids == std::vector<std::string>{"stabilised_chlorine"});
  CHECK(set_named("au_nsw_2012").temperature_max_c == 38);
  CHECK(set_named("us_cdc_home_hot_tub_current").forbids.empty());
}

TEST_CASE("a target row with faults says where they are") {
  const std::string text =
      R"({"sets": [{"id": "a", "authority": "", "source": "", "from_memory": true,
    "uses": ["garden"], "forbids": [], "advises_against": [],
    "readings": {"pH": {}, "ph": {"low": 7.6, "high": 7.4}}}]})";
  const std::string found = complaint(text);
  CHECK(found.find("the reading \"pH\" is not known here\n  where: t.json: /sets/0/readings/pH\n"
                   "  help:  did you mean ph?") != std::string::npos);
  CHECK(found.find("low and high are in the wrong order\n  where: t.json: /sets/0/readings/ph") !=
        std::string::npos);
  CHECK(found.find("\"garden\" is not known here") != std::string::npos);
}
