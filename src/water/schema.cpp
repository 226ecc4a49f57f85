// The JSON Schema of the `water` format, from the tables that read and write it.
#include <nlohmann/json.hpp>

#include "chemistry/readings.h"
#include "water/extras.h"
#include "water/format.h"
#include "water/steps.h"

namespace tub::water {
namespace {

using Json = nlohmann::ordered_json;

Json number_schema(double low, double high, std::string_view meaning) {
  return {{"type", "number"}, {"minimum", low}, {"maximum", high}, {"description", meaning}};
}

Json start_schema() {
  Json properties = Json::object();
  for (const auto& key : reading_keys)
    properties[std::string(key.name)] = number_schema(key.low, key.high, key.meaning);
  properties["balance"] = {{"enum", {"sodium", "chloride", "none"}}, {"default", "sodium"}};
  return {{"type", "object"}, {"properties", properties}, {"required", {"temperature_c", "ph"}}};
}

Json field_schema(const std::string& field, const SpeciesTable& table) {
  Json formulas = Json::array();
  for (const Compound& compound : table.compounds()) formulas.push_back(compound.formula);
  if (field == "add") return {{"enum", formulas}};
  if (field == "blend_with") return {{"$ref", "#/$defs/start"}, {"unevaluatedProperties", false}};
  if (field == "fraction") return number_schema(0, 1, "of the other water");
  if (field == "dose")
    return {{"type", "array"}, {"items", {{"enum", formulas}}}, {"minItems", 1}, {"maxItems", 2}};
  if (field == "to") return {{"type", "object"}, {"minProperties", 1}, {"maxProperties", 2}};
  if (field.starts_with("spend_") && !field.ends_with("_mg_l")) return {{"const", "all"}};
  return {{"type", "number"}};
}

Json steps_schema(const SpeciesTable& table) {
  Json kinds = Json::array();
  for (const StepRule& rule : step_rules()) {
    Json properties = Json::object();
    for (const std::string& field : rule.fields) properties[field] = field_schema(field, table);
    kinds.push_back({{"type", "object"},
                     {"properties", properties},
                     {"required", rule.fields},
                     {"additionalProperties", false}});
  }
  return {{"type", "array"}, {"items", {{"oneOf", kinds}}}};
}

Json state_schema() {
  Json properties = Json::object();
  Json required = Json::array();
  const auto add = [&](std::string_view name, std::string_view meaning) {
    properties[std::string(name)] = {{"type", {"number", "null"}}, {"description", meaning}};
    required.push_back(name);
  };
  for (const auto& key : reading_keys) add(key.name, key.meaning);
  for (const auto& key : derived_keys) add(key.name, key.meaning);
  for (const WaterExtra& extra : water_extras())
    properties[extra.name] = {{"description", extra.meaning}};
  return {{"type", "object"}, {"properties", properties}, {"required", required}};
}

Json also_schema() {
  Json names = Json::array();
  for (const WaterExtra& extra : water_extras()) names.push_back(extra.name);
  return {{"type", "array"}, {"items", {{"enum", names}}}};
}

}  // namespace

std::string water_schema(const SpeciesTable& table) {
  Json line = start_schema();
  line["properties"]["id"] = true;
  line["properties"]["activities"] = {{"enum", {"extended_debye_hueckel", "ideal"}},
                                      {"default", "extended_debye_hueckel"}};
  line["properties"]["also"] = also_schema();
  line["properties"]["steps"] = steps_schema(table);
  line["additionalProperties"] = false;
  const Json answer = {
      {"oneOf",
       {{{"type", "object"},
         {"properties",
          {{"id", true}, {"states", {{"type", "array"}, {"items", {{"$ref", "#/$defs/state"}}}}}}},
         {"required", {"id", "states"}}},
        {{"type", "object"},
         {"properties",
          {{"id", true}, {"line", {{"type", "integer"}}}, {"error", {{"type", "string"}}}}},
         {"required", {"id", "line", "error"}}}}}};
  Json schema = {{"$schema", "https://json-schema.org/draft/2020-12/schema"},
                 {"title", "one line in; $defs/answer is one line out"}};
  schema.update(line);
  schema["$defs"] = {{"start", start_schema()}, {"state", state_schema()}, {"answer", answer}};
  return schema.dump(2) + "\n";
}

}  // namespace tub::water
