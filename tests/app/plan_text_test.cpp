// The plan in a terminal: ranges that hold what they mean, assumptions in words.
#include "app/plan_text.h"

#include <catch2/catch.hpp>
#include <filesystem>
#include <iterator>
#include <nlohmann/json.hpp>

#include "app/pipeline.h"
#include "app/range_text.h"
#include "base/text.h"
#include "built_library.h"
#include "planning/water/start_water.h"
#include "project_text.h"
#include "sheets/template/wording.h"

using namespace tub;
using namespace tub::app;
namespace fs = std::filesystem;

namespace {

std::vector<Job> jobs() {
  std::vector<Job> all;
  for (const char* folder : {"examples", "tests/app/jobs"}) {
    for (const auto& entry : fs::directory_iterator(fs::path(TUB_SOURCE_DIR) / folder)) {
      if (entry.path().extension() != ".json") continue;
      all.push_back(read_job({project_text(entry.path()), entry.path().string()}, std::nullopt,
                             library().catalogue())
                        .value);
    }
  }
  return all;
}

std::string told(const Job& job, const Plan& plan) {
  return plan_text({plan, job.heading, library().catalogue().planning.products, ""},
                   library().language("en"), {false, 1000});
}

/// Both ends of "99 to 120" in a text that begins so.
std::optional<Range> range_in(const std::string& text) {
  const auto words = split(text, ' ');
  if (words.size() < 3 || words[1] != "to") return std::nullopt;
  return Range{to_number(words[0]).value(), to_number(words[2]).value()};
}

std::string assumed_in(const std::string& text) {
  const std::string head = "Assumed (mg/L): ";
  const std::size_t at = text.find(head);
  return at == std::string::npos ? "" : text.substr(at + head.size());
}

}  // namespace

TEST_CASE("a range in the terminal holds the range that it stands for") {
  CHECK(range_text(Reading::total_alkalinity, {99.6, 120.2}) == "99 to 121");
  CHECK(range_text(Reading::ph, {7.36, 7.64}) == "7.3 to 7.7");
  CHECK(range_text(Reading::ph, {7.4, 7.6}) == "7.4 to 7.6");
  CHECK(range_text(Reading::free_chlorine, {9.97, 10.02}) == "9.9 to 11");
  CHECK(at_most_text(Reading::ph, 8.41) == "8.5");
  int compared = 0;
  for (const Job& job : jobs()) {
    const Plan plan = plan_of(job, library().catalogue());
    CAPTURE(job.heading.vessel_name);
    constexpr std::size_t between = 50;  // where the column stands
    for (const std::string& line : split(told(job, plan), '\n')) {
      for (const Reading reading : all_readings) {
        const std::string name =
            library().language("en").text("reading." + std::string(name_of(reading)) + ".in_text");
        const bool is_row = line.starts_with(name + ", mg/L ") || line.starts_with("pH  ");
        if (!is_row || (line.starts_with("pH") != (reading == Reading::ph))) continue;
        const auto meant = plan.final_range.find(std::string(key_of(reading)));
        if (meant == plan.final_range.end() || line.size() <= between) continue;
        const auto shown = range_in(line.substr(between));
        REQUIRE(shown);
        CAPTURE(line);
        CHECK(shown->low <= meant->second.low + 1e-9);
        CHECK(shown->high >= meant->second.high - 1e-9);
        ++compared;
      }
    }
  }
  CHECK(compared > 30);
}

TEST_CASE("what a plan assumes stands in words in the terminal, never in keys") {
  for (const Job& job : jobs()) {
    const Plan plan = plan_of(job, library().catalogue());
    const std::string assumed = assumed_in(told(job, plan));
    CAPTURE(job.heading.vessel_name, assumed);
    CHECK_FALSE(assumed.empty());
    CHECK(assumed.find('_') == std::string::npos);
    CHECK(assumed.find("mg_l") == std::string::npos);
    CHECK(assumed.find("\u202F") == std::string::npos);
  }
}

TEST_CASE("every row of assumptions that a plan may name has words") {
  // Rows that decide, but that no plan names among what it assumed: they are no guess about a
  // water.
  const std::vector<std::string> silent = {"overshoot_bound",
                                           "first_pour_share",
                                           "least_first_pour_share",
                                           "pour_ph",
                                           "wait_minutes",
                                           "bromide_that_counts_mg_l",
                                           "hand_over_cyanuric_acid_mg_l",
                                           "no_more_dichlor_cyanuric_acid_mg_l",
                                           "sequestrant_reach",
                                           "cartridge_free_chlorine_mg_l",
                                           "cartridge_total_bromine_mg_l",
                                           "refill_step",
                                           "softener_leaves_mg_l",
                                           "most_replaced",
                                           "untested_cyanuric_acid_mg_l",
                                           "steadying_alkalinity_mg_l",
                                           "saturation_index"};
  const auto file = nlohmann::json::parse(
      project_text(fs::path(TUB_SOURCE_DIR) / "src/planning/data/assumptions.json"));
  for (const auto& [code, row] : file.at("assumptions").items()) {
    CAPTURE(code);
    const bool is_silent = std::find(silent.begin(), silent.end(), code) != silent.end();
    for (const char* tag : {"en", "de", "fr", "es"}) {
      CHECK(library().language(tag).has("assumed." + code) == !is_silent);
    }
  }
}

TEST_CASE("every code that the examples assume has words in every language") {
  for (const Job& job : jobs()) {
    const Plan plan = plan_of(job, library().catalogue());
    for (const Reason& reason : plan.assumed) {
      CAPTURE(job.heading.vessel_name, reason.code);
      for (const char* tag : {"en", "de", "fr", "es"}) {
        CHECK(library().language(tag).has("assumed." + reason.code));
      }
    }
  }
}

TEST_CASE("a tub with enough stabiliser is told to use liquid chlorine from the start") {
  const fs::path path = fs::path(TUB_SOURCE_DIR) / "tests/app/jobs/dichlor-handed-over.json";
  const Job job =
      read_job({project_text(path), path.string()}, std::nullopt, library().catalogue()).value;
  const std::string text = told(job, plan_of(job, library().catalogue()));
  CHECK(text.find("use liquid chlorine (sodium hypochlorite) from the start, no dichlor.") !=
        std::string::npos);
  CHECK(text.find("0 g of dichlor") == std::string::npos);
}
