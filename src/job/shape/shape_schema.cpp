#include "job/shape/shape_schema.h"

#include <fmt/format.h>

#include <algorithm>
#include <nlohmann/json.hpp>

#include "base/text.h"
#include "job/shape/schema_parts.h"

namespace tub::job {
namespace {

using Json = nlohmann::ordered_json;

Json pattern(const char* text) { return {{"type", "string"}, {"pattern", text}}; }

// A number at the start of a text; what follows is the unit.
constexpr const char* number_and_unit = "^ *[-+]?[0-9.].*[^0-9. ]";

struct SchemaOf {
  Json operator()(const TextShape& shape) const {
    return {{"type", "string"}, {"minLength", 1}, {"maxLength", shape.longest}};
  }
  Json operator()(const PathShape&) const { return {{"type", "string"}, {"minLength", 1}}; }
  Json operator()(const DateShape&) const { return {{"type", "string"}, {"format", "date"}}; }
  Json operator()(const NumberShape& shape) const {
    return {{"type", "number"}, {"minimum", shape.low}, {"maximum", shape.high}};
  }
  Json operator()(const WholeShape& shape) const {
    return {{"type", "integer"}, {"minimum", shape.low}, {"maximum", shape.high}};
  }
  Json operator()(const FlagShape&) const { return schema::flag(); }
  Json operator()(const VersionShape& shape) const { return {{"const", shape.version}}; }
  Json operator()(const NameShape& shape) const {
    return {{"type", "string"}, {"enum", shape.usable}};
  }
  Json operator()(const QuantityShape& shape) const {
    Json result = pattern(number_and_unit);
    result["examples"] = Json::array({shape.example});
    return result;
  }
  Json operator()(const StrengthShape&) const { return pattern(number_and_unit); }
  Json operator()(const DoseShape&) const { return pattern("^ *[0-9.]+.* per .*"); }
  Json operator()(const AmountShape&) const { return pattern(number_and_unit); }
  Json operator()(const ObjectShape& shape) const;
  Json operator()(const ListShape& shape) const {
    Json result = schema::list_of(shape_schema(*shape.item));
    if (shape.least > 0) result["minItems"] = shape.least;
    result["maxItems"] = shape.most;
    return result;
  }
  Json operator()(const EitherShape& shape) const {
    return {{"anyOf", Json::array({shape_schema(*shape.plain), shape_schema(*shape.object)})}};
  }
};

Json SchemaOf::operator()(const ObjectShape& shape) const {
  Json properties = Json::object();
  Json required = Json::array();
  for (const Field& field : shape.fields) {
    properties[field.name] = shape_schema(field.shape);
    if (!field.about.empty()) properties[field.name]["description"] = field.about;
    if (field.presence == Presence::required) required.push_back(field.name);
  }
  Json result = {{"type", "object"}, {"properties", std::move(properties)}};
  result["patternProperties"] = {{"^//", {{"type", "string"}}}};
  if (!required.empty()) result["required"] = std::move(required);
  result["additionalProperties"] = false;
  return result;
}

}  // namespace

Json shape_schema(const FieldShape& shape) { return std::visit(SchemaOf{}, shape.form); }

}  // namespace tub::job
