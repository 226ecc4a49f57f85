#include "why/flat.h"

#include <algorithm>
#include <nlohmann/json.hpp>
#include <set>

#include "base/nearest.h"
#include "base/node.h"
#include "base/text.h"

namespace tub::why {
namespace {

using Json = nlohmann::ordered_json;

template <class Call>
void walk(const Json& value, const std::string& pointer, const Call& call) {
  call(value, pointer);
  if (value.is_object()) {
    for (const auto& [name, member] : value.items()) {
      walk(member, pointer + "/" + pointer_step(name), call);
    }
  }
  if (!value.is_array()) return;
  for (std::size_t i = 0; i < value.size(); ++i) {
    walk(value.at(i), pointer + "/" + std::to_string(i), call);
  }
}

}  // namespace

Flat::Flat(std::string_view json) {
  walk(Json::parse(json), "", [&](const Json& value, const std::string& pointer) {
    places_[pointer] = true;
    if (value.is_string()) texts_[pointer] = value.get<std::string>();
    if (!value.is_number()) return;
    numbers_[pointer] = value.get<double>();
    order_.push_back(pointer);
  });
}

std::optional<double> Flat::number(const std::string& pointer) const {
  const auto found = numbers_.find(pointer);
  return found == numbers_.end() ? std::nullopt : std::optional(found->second);
}

std::optional<std::string> Flat::text(const std::string& pointer) const {
  const auto found = texts_.find(pointer);
  return found == texts_.end() ? std::nullopt : std::optional(found->second);
}

bool Flat::has(const std::string& pointer) const { return places_.contains(pointer); }

std::vector<std::string> steps_of_pointer(std::string_view pointer) {
  std::vector<std::string> steps;
  if (pointer.empty()) return steps;
  for (const std::string& step : split(pointer.substr(1), '/')) {
    steps.push_back(replaced(replaced(step, "~1", "/"), "~0", "~"));
  }
  return steps;
}

std::vector<std::string> nearest_pointers(const std::string& pointer, const Flat& plan) {
  std::vector<std::pair<std::size_t, std::string>> all;
  for (const std::string& known : plan.numbers()) {
    // What lies below the pointer is what was most likely meant.
    const bool is_below = known.starts_with(pointer + "/");
    all.emplace_back(is_below ? 0 : 1 + edit_distance(pointer, known), known);
  }
  std::stable_sort(all.begin(), all.end(),
                   [](const auto& a, const auto& b) { return a.first < b.first; });
  std::vector<std::string> nearest;
  for (const auto& [distance, known] : all) {
    if (nearest.size() == 3) break;
    nearest.push_back(known);
  }
  return nearest;
}

}  // namespace tub::why
