// Tables of keys: one table writes a struct as JSON and publishes its schema. For .cpp files that
// include <nlohmann/json.hpp>.
#pragma once

#include <functional>
#include <nlohmann/json.hpp>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "base/modules.h"

namespace tub::job {

/// One key of an object that is written from a T.
template <class T>
struct RecordField {
  using Json = nlohmann::ordered_json;

  std::string name;
  std::string about;
  Json schema;  ///< of the value
  /// The value; nothing: the key is left out of this object.
  std::function<std::optional<Json>(const T&)> write;
  bool is_always_there = true;
};

template <class T>
using RecordFields = std::vector<RecordField<T>>;

/// The object that a table writes from a value, keys in the table's order.
template <class T>
nlohmann::ordered_json written(const T& value, const RecordFields<T>& fields) {
  auto object = nlohmann::ordered_json::object();
  for (const RecordField<T>& field : fields) {
    if (auto item = field.write(value)) object[field.name] = std::move(*item);
  }
  return object;
}

/// The JSON Schema of the objects that a table writes.
template <class T>
nlohmann::ordered_json schema_of(const RecordFields<T>& fields) {
  auto properties = nlohmann::ordered_json::object();
  auto required = nlohmann::ordered_json::array();
  for (const RecordField<T>& field : fields) {
    properties[field.name] = field.schema;
    if (!field.about.empty()) properties[field.name]["description"] = field.about;
    if (field.is_always_there) required.push_back(field.name);
  }
  nlohmann::ordered_json schema = {{"type", "object"}, {"properties", std::move(properties)}};
  if (!required.empty()) schema["required"] = std::move(required);
  schema["additionalProperties"] = false;
  return schema;
}

/// Two tables, one after the other.
template <class T>
RecordFields<T> joined(RecordFields<T> first, const RecordFields<T>& second) {
  first.insert(first.end(), second.begin(), second.end());
  return first;
}

}  // namespace tub::job
