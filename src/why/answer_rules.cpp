// What stands beside the steps: ranges, what is not reached and what would mend it, hazards.
#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "why/aims.h"
#include "why/asking.h"
#include "why/equations.h"
#include "why/grounds.h"
#include "why/product_factors.h"
#include "why/rules.h"
#include "why/spreads.h"

namespace tub::why {
namespace {

const Unmet& unmet_at(const Asking& asking, const Place& place) {
  return asking.plan.unmet.at(std::stoul(place.parts.at(1)));
}

std::string final_reading(Asking& asking, Reading reading) {
  return reading_of(asking, "/final", key_of(reading));
}

/// A number of the plan that has this value, as what the stated one is the same as.
Node same_value(Asking& asking, const Place& place, const std::vector<std::string>& pointers) {
  for (const std::string& pointer : pointers) {
    const auto number = asking.in_plan().number(pointer);
    if (number && *number == asking.stated(place)) return same_as(asking, asking.ask(pointer));
  }
  return {"", "", 0, "", "plan_again", {}};
}

/// The share to replace: by the mixing of two waters, where that is how it was found.
Node replaced_share(Asking& asking, const Place& place, const Unmet& unmet) {
  const std::string reached = final_reading(asking, unmet.reading);
  const std::string key(key_of(unmet.reading));
  const std::string prefix = fmt::format("/unmet/{}", place.parts.at(1));
  Node node{"", "", 0, "", "root_of", {}};
  if (unmet.high) node.inputs.push_back({"high", asking.ask(prefix + "/high")});
  node.inputs.push_back({"reached", reached});
  const std::string other = "/second_source/" + key;
  if (unmet.remedy->with == "second_source" && asking.in_plan().number(other)) {
    node.inputs.push_back({"other_water", asking.ask(other)});
  }
  for (const auto& [reading, row] : asking.data.assumptions.softer_water) {
    if (reading != unmet.reading || unmet.remedy->with != "softer_water") continue;
    node.inputs.push_back(
        {"softer_water",
         data_row(asking, fmt::format("assumptions.json: softer_water/{}", name_of(reading)),
                  "softer_water", row.value, row.unit, row.source)});
  }
  return node;
}

/// Of a plan made again with what is missing.
Node from_another_plan(Asking& asking, const Unmet& unmet) {
  Node node{"", "", 0, "", "plan_again", {{"volume", asking.volume()}}};
  node.inputs.push_back({"reached", final_reading(asking, unmet.reading)});
  if (unmet.low) node.inputs.push_back({"low", goal_end(asking, unmet.reading, "low")});
  if (unmet.high) node.inputs.push_back({"high", goal_end(asking, unmet.reading, "high")});
  return node;
}

/// A sanitizer that is too high falls by itself: by halves.
Node hours_of_fall(Asking& asking, const Place& place, const Unmet& unmet, const char* which) {
  const Assumed& half_life = asking.data.assumptions.sanitizer_half_life_h;
  const std::string prefix = "/unmet/" + place.parts.at(1);
  if (!unmet.high) return from_another_plan(asking, unmet);
  Node node{"",
            "",
            0,
            "h",
            "halvings",
            {{"half_life", assumption(asking, half_life, which)},
             {"reached", asking.ask(prefix + "/reached")},
             {"high", asking.ask(prefix + "/high")}}};
  const std::array terms = {Term{"", asking.value(node.inputs[0].node)},
                            Term{"", asking.value(node.inputs[1].node)},
                            Term{"", asking.value(node.inputs[2].node)}};
  if (agrees(equation("halvings").value(terms), asking.stated(place))) return node;
  node.equation = "plan_again";
  return node;
}

/// Dichlor that is not poured: the stabiliser, the row that forbids it, the share to drain.
Node of_stabiliser(Asking& asking, const std::string& field) {
  const std::string found = reading_of(asking, asking.before(0), "cyanuric_acid_mg_l");
  const std::string row =
      assumption(asking, asking.data.assumptions.no_more_dichlor_cyanuric_acid_mg_l);
  if (field == "cyanuric_acid_mg_l") return same_as(asking, found);
  if (field == "no_more_from_mg_l") return same_as(asking, row);
  const std::string step = assumption(asking, asking.data.assumptions.refill_step);
  return {"", "", 0, "share", "root_of", {{"below", row}, {"found", found}, {"in_steps_of", step}}};
}

}  // namespace

Node metal_limit(Asking& asking, const Place& place, Reading reading) {
  const auto limit = asking.data.assumptions.metal_limits.find(reading);
  if (limit == asking.data.assumptions.metal_limits.end()) return same_value(asking, place, {});
  return same_as(
      asking,
      data_row(asking, fmt::format("assumptions.json: metal_limits/{}", name_of(reading)),
               "aesthetic_limit", limit->second.value, limit->second.unit, limit->second.source));
}

Node explain_final_range(Asking& asking, const Place& place) {
  const std::string& key = place.parts.at(1);
  const std::string id = "/final_range/" + key;
  const std::string value = reading_of(asking, "/final", key);
  const SpreadOf spread = spread_of(asking, id, key, value, asking.draft);
  return {"", place.parts.back() + "_end_of_90_%", 0, "", spread.equation(), spread.inputs};
}

Node explain_unmet(Asking& asking, const Place& place) {
  const Unmet& unmet = unmet_at(asking, place);
  const std::string& field = place.parts.at(2);
  if (field == "reached") {
    const std::string final = final_reading(asking, unmet.reading);
    if (asking.value(final) == unmet.reached) return same_as(asking, final);
    return same_as(asking, reading_of(asking, asking.before(0), key_of(unmet.reading)));
  }
  if (asking.situation.goal(unmet.reading) == nullptr) {
    return metal_limit(asking, place, unmet.reading);
  }
  if (unmet.reason.code == "aim_outside_gate") {
    const std::string key(key_of(unmet.reading));
    return same_as(asking, asking.ask(fmt::format("/targets/readings/{}/{}", key, field)));
  }
  if (field == "low" || field == "high") {
    return same_as(asking, goal_end(asking, unmet.reading, field.c_str()));
  }
  if (place.parts.back() == "hours_low") return hours_of_fall(asking, place, unmet, "low");
  if (place.parts.back() == "hours_high") return hours_of_fall(asking, place, unmet, "high");
  if (unmet.reason.code == "stabiliser_leaves_no_dichlor") {
    return of_stabiliser(asking, place.parts.back());
  }
  if (place.parts.back() == "bromide_as_br2_mg_l") {
    return {"",
            "",
            0,
            "mg/L as Br2",
            "oxidation",
            {{"bromide", reading_of(asking, asking.before(0), "bromide_mg_l")},
             {"bromine", reading_of(asking, asking.before(0), "total_bromine_mg_l")}}};
  }
  return from_another_plan(asking, unmet);
}

Node explain_remedy(Asking& asking, const Place& place) {
  const Unmet& unmet = unmet_at(asking, place);
  if (place.parts.back() == "hours") return hours_of_fall(asking, place, unmet, "value");
  if (place.parts.back() == "fraction") return replaced_share(asking, place, unmet);
  if (asking.situation.goal(unmet.reading) == nullptr) {
    Node node{"", "", 0, "", "plan_again", {{"volume", asking.volume()}}};
    node.inputs.push_back({"reached", reading_of(asking, asking.before(0), key_of(unmet.reading))});
    return node;
  }
  return from_another_plan(asking, unmet);
}

Node explain_hazard(Asking& asking, const Place& place) {
  const HazardPair& pair = asking.plan.hazards.at(std::stoul(place.parts.at(1)));
  for (const HazardRule& rule : asking.data.hazard_rules) {
    if (rule.code != pair.code || rule.source.text != pair.source ||
        rule.hours_apart != pair.hours_apart) {
      continue;
    }
    return same_as(asking, data_row(asking,
                                    fmt::format("hazards.json: {} and {}, {}/hours_apart",
                                                rule.first, rule.second, rule.code),
                                    "hours_apart", rule.hours_apart, "h",
                                    rule.hours_source ? *rule.hours_source : rule.source));
  }
  return {"", "", 0, "", "counted", {}};
}

namespace {

/// The part of the sanitizer that kills germs, of the final water.
std::string active_part(Asking& asking, const std::string& name) {
  const auto final = [&](const char* key) { return reading_of(asking, "/final", key); };
  const std::string id = "/active_sanitizer#" + name;
  const bool is_bromine = asking.plan.active_sanitizer->of == Reading::total_bromine;
  if (name == "hobr_mg_l") {
    return asking.put(
        id, name, "mg/L as Br2", "product",
        {{"share", final("hobr_fraction")}, {"bromine", final("total_bromine_mg_l")}});
  }
  if (name == "share" && is_bromine) return final("hobr_fraction");
  if (name == "share") {
    return asking.put(id, name, "share", "quotient",
                      {{"HOCl", final("hocl_mg_l")}, {"free", final("free_chlorine_mg_l")}});
  }
  return reading_of(asking, "/final", name);
}

}  // namespace

Node explain_active(Asking& asking, const Place& place) {
  const std::string& name = place.parts.at(1);
  const std::string value = active_part(asking, name);
  if (place.parts.back() == "value") return same_as(asking, value);
  Node node{"", "", 0, "", "quantile", {{"value", value}}};
  for (const char* key : {"ph", "free_chlorine_mg_l", "total_bromine_mg_l"}) {
    for (const char* end : {"low", "high"}) {
      const std::string range = fmt::format("/final_range/{}/{}", key, end);
      const auto number = asking.in_plan().number(range);
      if (!number || *number == 0) continue;
      node.inputs.push_back({fmt::format("{}_{}", key, end), asking.ask(range)});
    }
  }
  return node;
}

Node explain_hand_over(Asking& asking, const Place& place) {
  const std::string limit =
      assumption(asking, asking.data.assumptions.hand_over_cyanuric_acid_mg_l);
  if (place.parts.back() == "cyanuric_acid_mg_l") {
    if (asking.value(limit) == asking.stated(place)) return same_as(asking, limit);
    return {"", "", 0, "", "within_room", {{"limit", limit}}};
  }
  Node node{"",
            "",
            0,
            "g",
            "root_of",
            {{"cyanuric_acid", asking.ask("/hand_over/cyanuric_acid_mg_l")},
             {"start", reading_of(asking, asking.before(0), "cyanuric_acid_mg_l")},
             {"volume", asking.volume()}}};
  const Supply* first = asking.situation.first_of(asking.situation.sanitizer.products);
  if (first != nullptr) {
    node.inputs.push_back({"per_mg", per_product(asking, first->product(), "cyanuric_acid_mg_l")});
  }
  return node;
}

}  // namespace tub::why
