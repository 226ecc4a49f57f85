#include "job/shape/schema_parts.h"

#include <nlohmann/json.hpp>

namespace tub::job::schema {

using Json = nlohmann::ordered_json;

Json number() { return {{"type", "number"}}; }

Json whole() { return {{"type", "integer"}}; }

Json text() { return {{"type", "string"}}; }

Json flag() { return {{"type", "boolean"}}; }

Json or_null(Json value) {
  if (value.contains("type") && value["type"].is_string() && !value.contains("enum")) {
    value["type"] = Json::array({value["type"], "null"});
    return value;
  }
  return {{"anyOf", Json::array({std::move(value), Json{{"type", "null"}}})}};
}

Json one_of_names(std::span<const std::string_view> names) {
  return {{"type", "string"}, {"enum", names}};
}

Json constant(std::string_view value) { return {{"const", value}}; }

Json list_of(Json item) { return {{"type", "array"}, {"items", std::move(item)}}; }

Json map_of(Json value) { return {{"type", "object"}, {"additionalProperties", std::move(value)}}; }

Json reference(std::string_view name) { return {{"$ref", "#/$defs/" + std::string(name)}}; }

Json head(std::string_view title, std::string_view description) {
  return {{"$schema", "https://json-schema.org/draft/2020-12/schema"},
          {"title", title},
          {"description", description}};
}

}  // namespace tub::job::schema
