#include "job/plan/plan_format.h"

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

using namespace tub;
using namespace tub::job;
using Json = nlohmann::ordered_json;

namespace {

Step addition_step() {
  Addition addition;
  addition.product = "sodium_bicarbonate";
  addition.reading = Reading::total_alkalinity;
  addition.amount_g = 135;
  addition.adds_g = {{"NaHCO3", 134.3}};
  addition.overshoot_chance = 0.01;
  Portion first;
  first.amount_g = 90;
  first.measure = {{6, "us_tablespoon"}};
  first.expect[Reading::total_alkalinity] = {90, 102, 110};
  Portion second;
  second.amount_g = 45;
  second.only_if = Condition{Reading::total_alkalinity, Condition::Side::below, 110};
  addition.portions = {first, second};
  Step step;
  step.what = addition;
  step.number = 2;
  step.test = Reading::total_alkalinity;
  step.accept[Reading::total_alkalinity] = {110, 150};
  step.outcomes = {{Reading::total_alkalinity,
                    false,
                    TestOutcome::When::over_after_all,
                    TestOutcome::Action::stop_and_call,
                    {}}};
  step.after = WaterState{};
  return step;
}

Plan sample_plan() {
  Plan plan;
  plan.fingerprint = "7K4QM2";
  plan.sanitizer = "dichlor";
  plan.volume_l = 1340;
  plan.volume_give_or_take = 0.05;
  plan.use = "private";
  plan.targets.id = "common_practice";
  plan.targets.readings[Reading::ph] = {7.4, {}, 7.6, {}, {}};
  plan.start.ph = 7.9;
  plan.start.saturation_index = -std::numeric_limits<double>::infinity();
  Step fill;
  fill.what = FillVessel{};
  fill.number = 1;
  Step repeat;
  repeat.what =
      Repeat{4, 6, {Reading::total_alkalinity, Condition::Side::below, 150}, {addition_step()}};
  Step look = addition_step();
  look.test_is_clarity = true;
  std::get<Addition>(look.what).spends = {{"free_chlorine_mg_l", 0.4}};
  plan.steps = {fill, addition_step(), look, repeat};
  plan.unmet = {{Reading::calcium_hardness,
                 175,
                 250,
                 420,
                 {"too_hard", {{"reading", "x"}}},
                 Remedy{"replace", 0.4, "softer_water", "", {}, {}}}};
  plan.hazards = {{"dry_acid", "dichlor_dihydrate", "chlorine_gas", "deadly", 0, {}}};
  plan.assumed = {{"volume_give_or_take", {{"share", 0.05}}}};
  return plan;
}

std::vector<std::string> names_of(const Json& object) {
  std::vector<std::string> names;
  for (const auto& [name, value] : object.items()) names.push_back(name);
  return names;
}

// The smallest of validators: types, required and unknown keys, constants, alternatives.
bool fits(const Json& value, const Json& schema, const Json& root);

bool fits_object(const Json& value, const Json& schema, const Json& root) {
  const Json properties = schema.value("properties", Json::object());
  for (const Json& name : schema.value("required", Json::array())) {
    if (!value.contains(name.get<std::string>())) return false;
  }
  for (const auto& [name, item] : value.items()) {
    const Json others = schema.value("additionalProperties", Json(true));
    if (properties.contains(name) ? !fits(item, properties[name], root)
        : others.is_object()      ? !fits(item, others, root)
                                  : !others.get<bool>()) {
      return false;
    }
  }
  return true;
}

bool is_of_type(const Json& value, const std::string& type) {
  if (type == "number") return value.is_number();
  if (type == "integer") return value.is_number_integer();
  if (type == "string") return value.is_string();
  if (type == "boolean") return value.is_boolean();
  if (type == "null") return value.is_null();
  return type == "array" ? value.is_array() : value.is_object();
}

bool has_type(const Json& value, const Json& types) {
  if (types.is_string()) return is_of_type(value, types);
  return std::any_of(types.begin(), types.end(),
                     [&](const Json& type) { return is_of_type(value, type); });
}

bool fits(const Json& value, const Json& schema, const Json& root) {
  if (schema.contains("$ref")) {
    return fits(value, root.at(Json::json_pointer(schema["$ref"].get<std::string>().substr(1))),
                root);
  }
  for (const char* choice : {"oneOf", "anyOf"}) {
    if (!schema.contains(choice)) continue;
    const auto count = std::count_if(schema[choice].begin(), schema[choice].end(),
                                     [&](const Json& one) { return fits(value, one, root); });
    return count == 1 || (count > 1 && std::string(choice) == "anyOf");
  }
  if (schema.contains("const")) return value == schema["const"];
  if (schema.contains("type") && !has_type(value, schema["type"])) return false;
  if (schema.contains("enum")) {
    const Json& names = schema["enum"];
    if (std::find(names.begin(), names.end(), value) == names.end()) return false;
  }
  if (value.is_array() && schema.contains("items")) {
    return std::all_of(value.begin(), value.end(),
                       [&](const Json& item) { return fits(item, schema["items"], root); });
  }
  return !value.is_object() || fits_object(value, schema, root);
}

}  // namespace

TEST_CASE("a plan's JSON has the keys of its format, in their order") {
  const Json plan = Json::parse(plan_json(sample_plan()));
  CHECK(names_of(plan) ==
        std::vector<std::string>{
            "tubwright_plan", "fingerprint", "vessel",           "sanitizer",   "mineral_cartridge",
            "targets",        "gate",        "gate_sources",     "gate_closed", "cautions",
            "retest_with",    "start",       "measured",         "held",        "steps",
            "final",          "final_range", "active_sanitizer", "drift",       "unmet",
            "hazards",        "assumed",     "sources"});
  const Json& step = plan["steps"][1];
  CHECK(names_of(step) == std::vector<std::string>{"kind", "number", "product", "for", "amount_g",
                                                   "amount_ml", "adds_g", "after", "portions",
                                                   "overshoot_chance", "test", "test_too_coarse",
                                                   "accept", "outcomes", "notes"});
  CHECK(step["portions"][1]["only_if"] ==
        Json{{"reading", "total_alkalinity_mg_l"}, {"below", 110}});
  CHECK(step["outcomes"][0]["when"] == "over_after_all");
  CHECK(step["outcomes"][0]["do"] == "stop_and_call");
  CHECK(plan["steps"][2]["test"] == "clarity");
  CHECK(plan["steps"][2]["spends"]["free_chlorine_mg_l"] == 0.4);
  CHECK(plan["steps"][3]["steps"][0]["kind"] == "add");
  CHECK(plan["assumed"][0] == Json{{"code", "volume_give_or_take"}, {"share", 0.05}});
  CHECK(plan["targets"]["readings"]["ph"]["ideal"].is_null());
}

TEST_CASE("a plan fits its published schema, and a plan with a wrong key does not") {
  const Json schema = Json::parse(plan_schema());
  Json plan = Json::parse(plan_json(sample_plan()));
  CHECK(fits(plan, schema, schema));
  Json wrong = plan;
  wrong["steps"][1]["amount_kg"] = 1;
  CHECK_FALSE(fits(wrong, schema, schema));
  wrong = plan;
  wrong["steps"][1]["portions"][0]["wait_minutes"] = "20";
  CHECK_FALSE(fits(wrong, schema, schema));
  wrong = plan;
  wrong.erase("final");
  CHECK_FALSE(fits(wrong, schema, schema));
}

TEST_CASE("numbers are the shortest that read back, and what is not finite is null") {
  const std::string text = plan_json(sample_plan());
  CHECK(text.find("\"volume_l\": 1340,") != std::string::npos);
  CHECK(text.find("\"NaHCO3\": 134.3") != std::string::npos);
  CHECK(Json::parse(text)["start"]["saturation_index"].is_null());
}

TEST_CASE("the same plan gives the same bytes") {
  CHECK(plan_json(sample_plan()) == plan_json(sample_plan()));
}
