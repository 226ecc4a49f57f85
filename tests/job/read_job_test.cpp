#include <fmt/format.h>

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include "base/text.h"
#include "job_test.h"
#include "project_text.h"

using namespace tub;
using namespace tub::job;
using namespace tub::job::test;

namespace {

/// A case of bad_jobs.txt: what is done to a sound job, and what is said about it.
struct BadJob {
  std::string name;
  std::string patch;  // or a whole text
  bool is_patch = true;
  std::string expected;
};

// A case is "# name", the patch or after "text:" a whole job, an empty line, the messages.
std::vector<BadJob> bad_jobs() {
  std::vector<BadJob> jobs;
  bool is_expected = false;
  for (const std::string& line : split(project_text("tests/job/bad_jobs.txt"), '\n')) {
    if (line.starts_with("##")) continue;
    if (line.starts_with("# ")) {
      jobs.push_back({line.substr(2), "", true, ""});
      is_expected = false;
    } else if (line.empty()) {
      is_expected = true;
    } else if (is_expected) {
      jobs.back().expected += line + "\n";
    } else if (line.starts_with("text: ")) {
      jobs.back().is_patch = false;
      jobs.back().patch = line.substr(6);
    } else {
      jobs.back().patch += line + "\n";
    }
  }
  return jobs;
}

}  // namespace

TEST_CASE("a bad job is told all that is wrong with it, in these words") {
  const std::vector<BadJob> jobs = bad_jobs();
  REQUIRE(jobs.size() > 50);
  for (const BadJob& job : jobs) {
    INFO(job.name);
    CHECK(problems_of(job.is_patch ? patched(job.patch) : job.patch) == job.expected);
  }
}

TEST_CASE("every problem of a job has a place and something to do") {
  for (const BadJob& job : bad_jobs()) {
    INFO(job.name);
    try {
      read(job.is_patch ? patched(job.patch) : job.patch);
      FAIL("the job was read");
    } catch (const Error& error) {
      for (const Diagnostic& diagnostic : error.diagnostics()) {
        CHECK(diagnostic.where.starts_with("job.json: "));
        CHECK_FALSE(diagnostic.help.empty());
        CHECK(diagnostic.fault == Fault::job);
      }
    }
  }
}

TEST_CASE("a sound job becomes what the planner asks for") {
  const Job job = read(patched(R"({
    "heading": { "prepared_for": "the Marrow family", "prepared_by": { "name": "Thrushwater Tubs" } },
    "vessel": { "name": "Garden tub", "volume": { "value": "354 US gal", "give_or_take": "3 %" },
                "bathers_per_week": 10 },
    "source_water": { "calcium_hardness": "5 °dH", "iron": { "value": "0.3 mg/L",
                      "tested_with": "photometer" }, "conductivity": "0.31 mS/cm" },
    "retest_with": "drop_kit",
    "sanitizer": { "kind": "dichlor", "mineral_cartridge": true },
    "targets": { "set": "common_practice", "calcium_hardness": { "low": "100 mg/L" } },
    "sheets": [ "startup_card", { "sheet": "startup_card",
                                  "stock": { "width": "80 mm", "height": "12 cm" } } ]
  })"))
                      .value;
  CHECK(job.heading.shop_name == "Thrushwater Tubs");
  CHECK(job.heading.date == CalendarDate{2026, 5, 4});
  const PlanRequest& request = job.request;
  CHECK(request.tub.volume_l == Approx(354 * 3.785411784));
  CHECK(request.tub.volume_give_or_take == Approx(0.03));
  CHECK(request.tub.assumed.empty());
  CHECK_FALSE(request.water_is_in_tub);
  CHECK(request.water.temperature_c == Approx(14));
  // 5 German degrees are 50 mg/L of CaO, whose molar mass is 56.077: 89.24 mg/L as CaCO3.
  CHECK(request.water.readings.at("calcium_hardness_mg_l").value == Approx(89.24).epsilon(1e-4));
  CHECK(request.water.readings.at("calcium_hardness_mg_l").method == "drop_kit");
  CHECK(request.water.readings.at("iron_mg_l").method == "photometer");
  CHECK(request.water.readings.at("conductivity_us_cm").value == Approx(310));
  CHECK(request.retest_with.id == "drop_kit");
  CHECK(request.sanitizer.mineral_cartridge);
  CHECK(request.targets.readings.at(Reading::calcium_hardness).low == 100);
  CHECK(request.targets.readings.at(Reading::calcium_hardness).high == 250);
  CHECK(request.shelf.size() == 3);
  CHECK(job.sheets.at(1).stock->width_mm == Approx(80));
  CHECK(job.sheets.at(1).stock->height_mm == Approx(120));
}

TEST_CASE("a package's own strength and dose reach the shelf") {
  const Job job = read(patched(R"({ "sanitizer": "sodium_hypochlorite", "shelf": [
      { "product": "sodium_hypochlorite", "strength": "10 g/100 mL as Cl2" },
      { "product": "sequestrant", "dose": "2 US fl oz per 500 US gal" } ] })"))
                      .value;
  const auto& shelf = job.request.shelf;
  CHECK(shelf.at(0).product.strength == Approx(10));
  // 2 fl oz are 59.147 mL, 500 gal are 1892.706 L.
  CHECK(shelf.at(1).dose_ml_per_1000_l == Approx(31.25).epsilon(1e-4));
}

TEST_CASE("what nobody said about the tub is assumed by name") {
  const Job job = read(patched(R"({ "vessel": { "bathing_temperature": null } })")).value;
  REQUIRE(job.request.tub.assumed.size() == 2);
  CHECK(job.request.tub.assumed.at(0).code == "volume_give_or_take");
  CHECK(job.request.tub.assumed.at(1).code == "bathing_temperature_c");
  CHECK(job.request.tub.bathing_temperature_c == 38);
}

TEST_CASE("liquid chlorine is as strong as its age leaves it, by its half-life of 180 days") {
  const char* const job = R"({ "heading": { "date": "2026-05-04" }, "sanitizer":
    { "kind": "sodium_hypochlorite", "mineral_cartridge": true },
    "shelf": [ { "product": "sodium_hypochlorite", "strength": "12.5 g/100 mL as Cl2",
                 "made_on": "2025-11-05" } ] })";
  const Job old = read(patched(job)).value;
  const Product& product = old.request.shelf.front().product;
  CHECK(product.strength == Approx(6.25));  // 180 days
  CHECK(product.strength_loss == 0);
  CHECK(product.strength_half_width > 0.3);
  CHECK(old.request.assumed.back().code == "weaker_by_age");
}

TEST_CASE("dichlor that has nothing to hand over to is a warning") {
  const Outcome<Job> job = read(patched(R"({ "sanitizer": "dichlor_then_hypochlorite" })"));
  REQUIRE(job.warnings.size() == 1);
  CHECK(to_text(job.warnings.front(), "warning") ==
        "warning: nothing on the shelf takes over when cyanuric acid is at its limit\n"
        "  where: job.json: /sanitizer\n"
        "  help:  it will take sodium_hypochlorite or calcium_hypochlorite\n");
}

TEST_CASE("without a day of the job nobody knows how old a product is, and the plan says so") {
  const Job job = read(patched(R"({ "heading": { "date": null }, "sanitizer": "sodium_hypochlorite",
    "shelf": [ { "product": "sodium_hypochlorite", "made_on": "2025-11-05" } ] })"))
                      .value;
  CHECK(job.request.shelf.front().product.strength == 12.5);
  CHECK(job.request.shelf.front().product.strength_loss > 0);
  CHECK(job.request.assumed.back().code == "age_not_known");
}

TEST_CASE("what a set only advises against is a warning that names what it allows") {
  const Outcome<Job> job = read(patched(R"({ "targets": "us_cdc_home_hot_tub_current" })"));
  REQUIRE(job.warnings.size() == 1);
  CHECK(
      to_text(job.warnings.front(), "warning") ==
      "warning: the target set us_cdc_home_hot_tub_current advises against the sanitizer dichlor\n"
      "  where: job.json: /sanitizer\n"
      "  help:  it allows: sodium_hypochlorite, calcium_hypochlorite, two_step_bromine, "
      "bromine_tablets\n");
}

TEST_CASE("a full tub on dichlor that was not tested for stabiliser is a warning") {
  const char* const full = R"({ "source_water": null, "tub_water": { "tested_with": "drop_kit",
    "ph": 7.5, "total_alkalinity": "120 mg/L", "calcium_hardness": "200 mg/L" } })";
  const Outcome<Job> job = read(patched(full));
  REQUIRE(job.warnings.size() == 1);
  CHECK(to_text(job.warnings.front(), "warning") ==
        "warning: cyanuric acid was not tested, and dichlor brings it\n"
        "  where: job.json: /tub_water\n"
        "  help:  test it and add \"cyanuric_acid\": too much of it keeps people out\n");
  const char* const tested = R"({ "source_water": null, "tub_water": { "tested_with": "drop_kit",
    "ph": 7.5, "total_alkalinity": "120 mg/L", "calcium_hardness": "200 mg/L",
    "cyanuric_acid": "30 mg/L" } })";
  CHECK(read(patched(tested)).warnings.empty());
  CHECK(read(patched("{}")).warnings.empty());
}

TEST_CASE("a pH of the job's own outside the gate is a warning with its place and way out") {
  const auto warned = [](const std::string& ph) {
    return read(patched(R"({ "targets": { "set": "common_practice", "ph": )" + ph + " } }"))
        .warnings;
  };
  const auto outside = warned(R"({ "low": 7.9, "high": 8.1 })");
  REQUIRE(outside.size() == 1);
  CHECK(to_text(outside.front(), "warning") ==
        "warning: ph of 7.9 to 8.1 lies outside the gate for bathing, 7.2 to 7.8\n"
        "  where: job.json: /targets/ph\n"
        "  help:  the plan stays inside the gate; a gate of its own has \"bathe_low\" and "
        "\"stop\"\n");
  const auto wider = warned(R"({ "low": 7.0, "high": 7.8 })");
  REQUIRE(wider.size() == 1);
  CHECK(wider.front().message == "ph of 7 to 7.8 reaches outside the gate for bathing, 7.2 to 7.8");
  CHECK(warned(R"({ "low": 7.2, "high": 7.6 })").empty());
  CHECK(warned(R"({ "low": 7.0, "high": 7.8, "bathe_low": 7.0, "stop": 7.8 })").empty());
}

TEST_CASE("a ceiling of stabiliser that a job's own band passes is a warning") {
  const auto job = read(patched(
      R"({ "targets": { "set": "common_practice", "cyanuric_acid": { "high": "150 mg/L" } } })"));
  REQUIRE(job.warnings.size() == 1);
  CHECK(job.warnings.front().message ==
        "cyanuric_acid of up to 150 reaches outside the gate for bathing, up to 100");
}

TEST_CASE("a gate of the job's own below what the authorities ask for is a warning") {
  const auto job = read(patched(
      R"({ "targets": { "set": "common_practice", "free_chlorine": { "bathe_low": "1 mg/L" } } })"));
  REQUIRE(job.warnings.size() == 1);
  CHECK(
      to_text(job.warnings.front(), "warning") ==
      "warning: free_chlorine of 1 lets people in at less than public-health authorities ask for\n"
      "  where: job.json: /targets/free_chlorine\n"
      "  help:  the gate stays 3 to 5\n");
}

TEST_CASE("a reading that its test does not show is a warning") {
  const Outcome<Job> job = read(patched(
      R"({ "source_water": { "iron": { "value": "0.3 mg/L", "tested_with": "strip" } } })"));
  REQUIRE(job.warnings.size() == 1);
  CHECK(job.warnings.front().message == "iron is not a reading that a strip shows");
  CHECK(job.warnings.front().where == "job.json: /source_water/iron");
}

TEST_CASE("a shelf without the acid that a water needs is no fault of the job") {
  CHECK(problems_of(patched(R"({ "shelf": [ "sodium_bicarbonate", "dichlor_dihydrate" ] })"))
            .empty());
}

TEST_CASE("a total hardness beside both its parts is compared with them") {
  const auto warnings = [](int total) {
    const auto job = read(patched(fmt::format(
        R"({{"source_water": {{"tested_with": "drop_kit", "calcium_hardness": "150 mg/L as CaCO3",
            "magnesium_hardness": "50 mg/L as CaCO3",
            "total_hardness": "{} mg/L as CaCO3"}}}})",
        total)));
    std::string all;
    for (const Diagnostic& one : job.warnings) all += one.message + "\n";
    return all;
  };
  // Drops of 10 mg/L, both off together: 14.1.
  CHECK(warnings(210).find("total hardness") == std::string::npos);
  CHECK(warnings(260).find("the total hardness is 260 mg/L as CaCO3, its parts together are 200") !=
        std::string::npos);
}

TEST_CASE("fields that start with // are comments") {
  CHECK(problems_of(patched(R"({ "// why": "a note", "vessel": { "//": "another" } })")).empty());
}
