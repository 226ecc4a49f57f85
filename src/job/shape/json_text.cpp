#include "job/shape/json_text.h"

#include <cmath>
#include <nlohmann/json.hpp>

#include "base/text.h"

namespace tub::job {
namespace {

using Json = nlohmann::ordered_json;

constexpr std::size_t widest = 100;

std::string scalar(const Json& value) {
  if (value.is_number_float()) {
    const auto number = value.get<double>();
    return std::isfinite(number) ? shortest(number) : "null";
  }
  return value.dump();
}

std::string in_line(const Json& value) {
  if (!value.is_structured()) return scalar(value);
  const bool is_object = value.is_object();
  if (value.empty()) return is_object ? "{}" : "[]";
  std::string text = is_object ? "{ " : "[ ";
  bool is_first = true;
  for (const auto& [name, item] : value.items()) {
    if (!is_first) text += ", ";
    is_first = false;
    if (is_object) text += Json(name).dump() + ": ";
    text += in_line(item);
  }
  return text + (is_object ? " }" : " ]");
}

// `taken` is what stands on the first line before the value.
std::string broken(const Json& value, std::size_t depth, std::size_t taken) {
  std::string line = in_line(value);
  if (!value.is_structured() || value.empty() || 2 * depth + taken + line.size() < widest) {
    return line;
  }
  const bool is_object = value.is_object();
  const std::string inset(2 * (depth + 1), ' ');
  std::string text = is_object ? "{" : "[";
  bool is_first = true;
  for (const auto& [name, item] : value.items()) {
    text += is_first ? "\n" : ",\n";
    is_first = false;
    const std::string key = is_object ? Json(name).dump() + ": " : "";
    text += inset + key + broken(item, depth + 1, key.size());
  }
  return text + "\n" + std::string(2 * depth, ' ') + (is_object ? "}" : "]");
}

}  // namespace

std::string to_text(const Json& value) { return broken(value, 0, 0) + "\n"; }

}  // namespace tub::job
