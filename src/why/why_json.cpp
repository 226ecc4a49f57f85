// A chain of explanations as JSON.
#include <nlohmann/json.hpp>
#include <set>

#include "job/shape/json_text.h"
#include "why/equations.h"
#include "why/explain.h"

namespace tub::why {
namespace {

using Json = nlohmann::ordered_json;

Json source_json(const Provenance& source) {
  return {{planning::name_of(source.kind), source.text}};
}

Json origin_json(const Origin& origin) {
  Json json = {{"kind", name_of(origin.ground)}};
  if (!origin.where.empty()) json["where"] = origin.where;
  if (!origin.as_written.empty()) json["as_written"] = origin.as_written;
  if (!origin.method.empty()) json["tested_with"] = origin.method;
  if (origin.division) json["division"] = *origin.division;
  if (origin.half_width) json["half_width"] = *origin.half_width;
  if (!origin.test_unit.empty()) json["test_unit"] = origin.test_unit;
  if (origin.source) json["source"] = source_json(*origin.source);
  return json;
}

/// Writes each node in full where it first stands, and by its name from then on.
class Writer {
 public:
  explicit Writer(const Chain& chain) : chain_(chain) {}

  Json node(const std::string& id) {
    const Node& node = chain_.at(id);
    Json json;
    json[id.starts_with('/') && id.find('#') == std::string::npos ? "pointer" : "id"] = id;
    json["name"] = node.name;
    json["value"] = node.value;
    json["unit"] = node.unit;
    if (!written_.insert(id).second) {
      json["explained"] = "above";
      return json;
    }
    json["equation"] = node.equation;
    json["formula"] = formula(node);
    json["inputs"] = inputs(node);
    if (!node.beside.empty()) json["beside"] = node.beside;
    if (node.origin) json["origin"] = origin_json(*node.origin);
    return json;
  }

 private:
  Json inputs(const Node& node) {
    Json list = Json::array();
    for (const Input& input : node.inputs) {
      Json item = {{"as", input.name}};
      if (input.share) item["share"] = *input.share;
      item.update(this->node(input.node));
      list.push_back(std::move(item));
    }
    return list;
  }

  const Chain& chain_;
  std::set<std::string> written_;
};

}  // namespace

std::string why_json(const std::string& pointer, const Chain& chain) {
  Json json = {{"tubwright_why", 1}};
  json.update(Writer(chain).node(pointer));
  return to_text(json);
}

}  // namespace tub::why
