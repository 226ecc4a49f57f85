// What holds for the text of every plan, over jobs drawn at random.
#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>
#include <functional>
#include <nlohmann/json.hpp>

#include "job/plan/plan_format.h"
#include "planning/make_plan.h"
#include "random_job.h"
#include "sample_job.h"
#include "water/format.h"

using namespace tub;
using namespace tub::job;
using namespace tub::water;
using Json = nlohmann::ordered_json;

namespace {

/// The same to this share of a reading's size, and of 1 where that is larger.
constexpr double replay_tolerance = 1e-6;

Json plan_of(const PlanRequest& request) {
  return Json::parse(plan_json(make_plan(request, planning_data(), species_table())));
}

void for_each_job(std::uint64_t few, const std::function<void(const PlanRequest&)>& call) {
  const std::uint64_t jobs = law_jobs(few);
  for (std::uint64_t seed = 0; seed < jobs; ++seed) {
    CAPTURE(seed);
    call(random_request(seed));
  }
}

/// What a `water` line starts from: the keys that it knows.
Json start_state(const Json& state) {
  Json start;
  for (const auto& key : reading_keys) {
    const std::string name(key.name);
    if (state.contains(name)) start[name] = state.at(name);
  }
  return start;
}

/// The water steps of a plan, and the waters that it states beside them.
class Script {
 public:
  explicit Script(const Json& plan) : plan_(plan) { walk(plan.at("steps"), true); }

  std::string line() const {
    Json line = start_state(plan_.at("start"));
    line["balance"] = "none";
    line["steps"] = steps_;
    return line.dump();
  }
  /// Each stated water, and the index of its state in the answer.
  const std::vector<std::pair<Json, std::size_t>>& stated() const { return stated_; }
  std::size_t size() const { return steps_.size(); }

 private:
  void walk(const Json& steps, bool says) {
    for (const Json& step : steps) {
      if (step.at("kind") == "repeat") {
        for (int i = 0; i < step.at("times"); ++i) walk(step.at("steps"), says && i == 0);
      } else {
        take(step);
      }
      if (says && step.contains("after") && !step.at("after").is_null()) {
        stated_.emplace_back(step.at("after"), steps_.size());
      }
    }
  }

  void take(const Json& step) {
    const std::string kind = step.at("kind");
    if (kind == "heat") steps_.push_back({{"heat_to_c", step.at("to_c")}});
    if (kind == "release_carbon_dioxide") {
      steps_.push_back({{"equilibrate_log10_pco2_atm", step.at("to_log10_pco2_atm")}});
    }
    if (kind == "replace") {
      const Json& with = step.at("with");
      const Json& other = with == "second_source"  ? plan_.at("second_source")
                          : with == "source_water" ? plan_.at("start")
                                                   : with;
      steps_.push_back({{"blend_with", start_state(other)}, {"fraction", step.at("fraction")}});
    }
    if (kind != "add") return;
    const double volume = plan_.at("vessel").at("volume_l");
    for (const auto& [formula, grams] : step.at("adds_g").items()) {
      steps_.push_back({{"add", formula}, {"mg_l", grams.get<double>() * 1000 / volume}});
    }
    if (!step.contains("spends")) return;
    for (const auto& [key, mg_l] : step.at("spends").items()) {
      steps_.push_back({{"spend_" + key, mg_l}});
    }
  }

  const Json& plan_;
  Json steps_ = Json::array();
  std::vector<std::pair<Json, std::size_t>> stated_;
};

void check_same(const Json& stated, const Json& replayed) {
  for (const auto& [key, value] : stated.items()) {
    if (!value.is_number() || !replayed.contains(key)) continue;
    const double expected = value.get<double>();
    CAPTURE(key, expected, replayed.at(key));
    CHECK(std::abs(replayed.at(key).get<double>() - expected) <=
          replay_tolerance * std::max(1.0, std::abs(expected)));
  }
}

/// Every number in a JSON is one: what is not finite would be null in a water.
void check_finite(const Json& json) {
  if (json.is_number()) CHECK(std::isfinite(json.get<double>()));
  for (const Json& part : json) {
    if (part.is_structured()) check_finite(part);
  }
  if (!json.is_object() || !json.contains("buffer_intensity_mmol_kg")) return;
  for (const auto& [key, value] : json.items()) {
    const bool may_be_endless = key == "saturation_index" || key == "log10_pco2_atm";
    CAPTURE(key);
    CHECK((!value.is_null() || may_be_endless));
  }
}

}  // namespace

TEST_CASE("every water of a plan is whole: no number is missing or endless", "[laws]") {
  for_each_job(150, [](const PlanRequest& request) { check_finite(plan_of(request)); });
}

TEST_CASE("a plan replayed through the water format gives every water that it states", "[laws]") {
  const WaterTables tables{species_table(), {}};
  for_each_job(150, [&](const PlanRequest& request) {
    const Json plan = plan_of(request);
    const Script script(plan);
    const WaterAnswer answer = answer_water_line(script.line(), 1, tables);
    INFO(answer.text);
    REQUIRE_FALSE(answer.is_error);
    const Json states = Json::parse(answer.text).at("states");
    REQUIRE(states.size() == script.size() + 1);
    for (const auto& [stated, index] : script.stated()) check_same(stated, states.at(index));
    check_same(plan.at("final"), states.back());
  });
}

TEST_CASE("the shelf in another order gives the same bytes", "[laws]") {
  for_each_job(60, [](const PlanRequest& request) {
    PlanRequest turned = request;
    std::reverse(turned.shelf.begin(), turned.shelf.end());
    CHECK(plan_of(turned).dump() == plan_of(request).dump());
    std::rotate(turned.shelf.begin(), turned.shelf.begin() + turned.shelf.size() / 2,
                turned.shelf.end());
    CHECK(plan_of(turned).dump() == plan_of(request).dump());
  });
}
