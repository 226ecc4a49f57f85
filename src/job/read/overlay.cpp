#include "job/read/overlay.h"

#include <algorithm>
#include <array>
#include <nlohmann/json.hpp>
#include <optional>
#include <unordered_set>

#include "base/node.h"
#include "job/limits.h"
#include "job/shape/comment.h"

namespace tub::job {
namespace {

using Json = nlohmann::ordered_json;

// The fields of a job that a shop may set.
constexpr std::array<std::string_view, 9> shared = {"heading", "retest_with", "sanitizer",
                                                    "targets", "shelf",       "measure",
                                                    "sheets",  "rules",       "country"};

class Overlay {
 public:
  explicit Overlay(std::vector<Origin>& origins) : origins_(origins) {}

  // Adds to `job` the members of `shop` that it lacks; objects in both are merged.
  void fill(Json& job, const Json& shop, const Origin& at) {
    std::unordered_set<std::string> own;
    for (const auto& member : job.items()) own.insert(member.key());
    for (const auto& [name, value] : shop.items()) {
      if (is_comment(name)) continue;
      const std::string step = "/" + pointer_step(name);
      const Origin here = {at.pointer + step, at.shop_pointer + step};
      if (!own.contains(name)) {
        // Its own insertion would compare the name with all others.
        job.get_ref<Json::object_t&>().emplace_back(name, value);
        origins_.push_back(here);
      } else if (job[name].is_object() && value.is_object()) {
        fill(job[name], value, here);
      }
    }
  }

  void take_whole(Json& job, const Json& shop, std::string_view name) {
    const std::string key(name);
    if (!shop.contains(key) || job.contains(key)) return;
    job[key] = shop[key];
    origins_.push_back({"/" + key, "/" + key});
  }

 private:
  std::vector<Origin>& origins_;
};

std::optional<std::string> product_of(const Json& item) {
  if (item.is_string()) return item.get<std::string>();
  if (item.is_object() && item.contains("product") && item["product"].is_string()) {
    return item["product"].get<std::string>();
  }
  return std::nullopt;
}

void fill_shelf(Json& job, const Json& shop, Overlay& overlay) {
  // A longer list is refused when it is read.
  const auto is_list = [](const Json& json, const char* name) {
    return json.contains(name) && json[name].is_array() && json[name].size() <= limits::shelf;
  };
  if (!is_list(job, "shelf") || !is_list(shop, "products")) return;
  for (std::size_t i = 0; i < job["shelf"].size(); ++i) {
    Json& item = job["shelf"][i];
    const auto product = product_of(item);
    for (std::size_t k = 0; product && k < shop["products"].size(); ++k) {
      const Json& own = shop["products"][k];
      if (!own.is_object() || product_of(own) != product) continue;
      if (item.is_string()) item = Json{{"product", *product}};
      overlay.fill(item, own, {"/shelf/" + std::to_string(i), "/products/" + std::to_string(k)});
    }
  }
}

bool is_at_or_below(std::string_view place, std::string_view pointer) {
  return place.substr(0, pointer.size()) == pointer &&
         (place.size() == pointer.size() || place[pointer.size()] == '/');
}

}  // namespace

std::vector<Origin> lay_over(Json& job, const Json& shop) {
  std::vector<Origin> origins;
  if (!job.is_object() || !shop.is_object()) return origins;
  Overlay overlay(origins);
  for (const std::string_view name : shared) {
    const std::string key(name);
    const bool are_both = job.contains(key) && shop.contains(key);
    if (key == "heading" && are_both && job[key].is_object() && shop[key].is_object()) {
      overlay.fill(job[key], shop[key], {"/heading", "/heading"});
    } else {
      overlay.take_whole(job, shop, name);
    }
  }
  fill_shelf(job, shop, overlay);
  return origins;
}

std::vector<Diagnostic> relocated(std::vector<Diagnostic> diagnostics, const std::string& job_file,
                                  const std::string& shop_file,
                                  const std::vector<Origin>& origins) {
  const std::string head = job_file + ": ";
  for (Diagnostic& diagnostic : diagnostics) {
    if (diagnostic.where.substr(0, head.size()) != head) continue;
    const std::string place = diagnostic.where.substr(head.size());
    const Origin* nearest = nullptr;
    for (const Origin& origin : origins) {
      if (!is_at_or_below(place, origin.pointer)) continue;
      if (nearest == nullptr || origin.pointer.size() > nearest->pointer.size()) nearest = &origin;
    }
    if (nearest == nullptr) continue;
    diagnostic.where =
        shop_file + ": " + nearest->shop_pointer + place.substr(nearest->pointer.size());
  }
  return diagnostics;
}

}  // namespace tub::job
