// Amounts: the sum of the pours, each rounded to a measure, from the dose that was asked for.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "planning/pours/portions.h"
#include "planning/pours/pour_out.h"
#include "why/aims.h"
#include "why/asking.h"
#include "why/equations.h"
#include "why/floater_rules.h"
#include "why/grounds.h"
#include "why/pours.h"
#include "why/product_factors.h"
#include "why/rules.h"
#include "why/spreads.h"

namespace tub::why {
namespace {

/// Source: definition, international avoirdupois ounce and US customary fluid ounce.
constexpr double grams_per_ounce = 28.349523125;
constexpr double ml_per_us_fluid_ounce = 29.5735295625;

DosePlace dose_of(const Asking& asking, const Place& place) { return dose_at(asking, place.move); }

const char* amount_key(const DosePlace& at) {
  return at.dose->supply->product().form == Form::liquid ? "amount_ml" : "amount_g";
}

std::string unit_of_amount(const DosePlace& at) { return unit_of_key(amount_key(at)); }

std::size_t pour_index(const Place& place) { return std::stoul(place.rest.at(1)); }

bool is_worked_out(Asking& asking, const Node& node, double stated) {
  std::vector<Term> terms;
  for (const Input& input : node.inputs) terms.emplace_back(input.name, asking.value(input.node));
  return agrees(equation(node.equation).value(terms), stated);
}

/// The whole as it is split: what was asked for, or what the pH window leaves of it.
std::string whole_amount(Asking& asking, const DosePlace& at) {
  const std::string asked = asked_amount(asking, at);
  const Pours& pours = *at.dose->pours;
  const bool is_bound = pours.most_in_all > 0 && pours.most_in_all < pours.asked;
  if (!is_bound) return asked;
  const Assumed& window = asking.data.assumptions.pour_ph;
  const std::string from = asking.before(at.move);
  return asking.put(at.prefix + "#whole", "amount_within_the_pH_window", unit_of_amount(at),
                    "within_room",
                    {{"asked", asked},
                     {"lowest_pH", assumption(asking, window, "low")},
                     {"highest_pH", assumption(asking, window, "high")},
                     {"pH_before", reading_of(asking, from, "ph")}},
                    pours.most_in_all);
}

/// Three quarters or the limit; a third or what the second pour cannot carry.
struct FirstPour {
  std::string most;
  std::string least;
};

FirstPour bounds_of_first(Asking& asking, const DosePlace& at) {
  const Assumptions& assumed = asking.data.assumptions;
  const std::string whole = whole_amount(asking, at);
  const std::string unit = unit_of_amount(at);
  const auto put = [&](const char* name, const char* equation, std::vector<Input> inputs) {
    return asking.put(at.prefix + "#" + name, name, unit, equation, std::move(inputs));
  };
  std::vector<Input> most = {
      {"three_quarters",
       put("most_share", "product",
           {{"share", assumption(asking, assumed.first_pour_share)}, {"whole", whole}})}};
  std::vector<Input> least = {
      {"a_third",
       put("least_share", "product",
           {{"share", assumption(asking, assumed.least_first_pour_share)}, {"whole", whole}})}};
  if (std::isfinite(at.dose->pours->most_in_one) && at.dose->pours->most_in_one > 0) {
    const std::string limit = limit_of_pour(asking, at);
    most.push_back({"limit", limit});
    least.push_back({"what_the_second_cannot_carry",
                     put("not_carried", "difference", {{"whole", whole}, {"limit", limit}})});
  }
  return {put("most", "smallest", std::move(most)), put("least", "largest", std::move(least))};
}

/// The end of the band that a first pour may not pass, carried back to this step.
std::string far_edge(Asking& asking, const DosePlace& at) {
  const Limits band = band_at(asking.situation, asking.draft, at.move);
  const char* end = lowers(*at.dose) ? "low" : "high";
  const auto edge = lowers(*at.dose) ? band.low : band.high;
  return asking.put(at.prefix + "#far_edge", "far_edge", unit_of_key(key_of(*at.dose->goal)),
                    "carried_back", {{end, goal_end(asking, *at.dose->goal, end)}},
                    edge.value_or(0));
}

/// The first pour before it was rounded.
std::string first_amount(Asking& asking, const DosePlace& at) {
  const double first = at.dose->pours->first;
  const std::string id = at.prefix + "#first";
  const FirstPour bounds = bounds_of_first(asking, at);
  Node node{id,        "first_pour_unrounded",
            0,         unit_of_amount(at),
            "largest", {{"least", bounds.least}, {"most", bounds.most}}};
  if (is_worked_out(asking, node, first)) return asking.put(std::move(node), first);
  node.equation = "largest_within";
  node.inputs.push_back({"bound", assumption(asking, asking.data.assumptions.overshoot_bound)});
  node.inputs.push_back({"far_edge", far_edge(asking, at)});
  return asking.put(std::move(node), first);
}

/// What a pour is rounded from.
std::string unrounded(Asking& asking, const DosePlace& at, std::size_t pour) {
  const Pours& pours = *at.dose->pours;
  if (at.is_in_rounds && pours.amounts.size() == 2) {
    const std::string half = asking.put(
        at.prefix + "#half", "half", unit_of_amount(at), "quotient",
        {{"turn", asked_amount(asking, at)},
         {"two", constant(asking, "two pours", 2, "", definition("a turn is poured in two"))}});
    if (pour == 0) return half;
  } else if (pours.amounts.size() == 1) {
    return whole_amount(asking, at);
  } else if (pour == 0) {
    return first_amount(asking, at);
  }
  const std::string first = fmt::format("{}/portions/0/{}", at.prefix, amount_key(at));
  const std::string whole = at.is_in_rounds ? asked_amount(asking, at) : whole_amount(asking, at);
  return asking.put(at.prefix + "#rest", "rest", unit_of_amount(at), "difference",
                    {{"whole", whole}, {"first_pour", asking.ask(first)}});
}

std::string grain_row(Asking& asking, const std::string& field, double value,
                      const std::string& unit, const char* source) {
  const MeasureSystem& measure = asking.request.measure;
  const auto found = measure.sources.find(source);
  return data_row(asking, fmt::format("measures.json: {}/{}", measure.id, field), "step", value,
                  unit, found == measure.sources.end() ? definition("") : found->second);
}

bool is_ounce(const std::string& unit) { return unit == "oz" || unit == "us_fluid_ounce"; }

std::string ounce(Asking& asking, const std::string& unit) {
  return unit == "oz" ? constant(asking, "one ounce", grams_per_ounce, "g",
                                 definition("international avoirdupois ounce"))
                      : constant(asking, "one US fluid ounce", ml_per_us_fluid_ounce, "mL",
                                 definition("231 cubic inches / 128"));
}

/// The size of one spoon of a product, in g or mL.
std::string spoonful(Asking& asking, const DosePlace& at, const std::string& unit) {
  const MeasureSystem& measure = asking.request.measure;
  const auto spoon = std::find_if(measure.spoons.begin(), measure.spoons.end(),
                                  [&](const Spoon& one) { return one.unit == unit; });
  const std::string volume =
      grain_row(asking, "spoons/" + unit + "/volume_ml", spoon->volume_ml, "mL", "spoons");
  const Product& product = at.dose->supply->product();
  if (product.form == Form::liquid) return volume;
  return asking.put(at.prefix + "#spoonful", "spoonful", "g", "product",
                    {{"volume", volume},
                     {"bulk_density", product_row(asking, product, "bulk_density",
                                                  product.bulk_density_g_ml.value_or(1), "g/mL")}});
}

/// Steps of scale or jug in which a size may be printed, the likeliest first.
std::vector<std::string> steps_of_scale(Asking& asking, const DosePlace& at) {
  const MeasureSystem& measure = asking.request.measure;
  const bool is_liquid = at.dose->supply->product().form == Form::liquid;
  if (at.dose->pours->is_fine) {
    return {constant(asking, "fine scale", 0.1, unit_of_amount(at),
                     assumed_by_us("a 0.1 g scale or a 0.1 mL syringe"))};
  }
  if (!is_liquid) {
    return {grain_row(asking, "grain_g", measure.grain_g, "g", "grains"),
            grain_row(asking, "coarse_grain_g", measure.coarse_grain_g, "g", "grains")};
  }
  return {grain_row(asking, "grain_ml", measure.grain_ml, "mL", "grains"),
          constant(asking, "one millilitre", 1, "mL",
                   assumed_by_us("a spoon is read finer than a jug"))};
}

/// The rounding that gives the stated number, or its description where a limit came between.
Node rounded(Asking& asking, const Input& from, const std::vector<std::string>& steps,
             double stated) {
  for (const std::string& step : steps) {
    for (const char* way : {"round_to", "round_down_to"}) {
      Node node{"", "", 0, "", way, {from, {"step", step}}};
      if (is_worked_out(asking, node, stated)) return node;
    }
  }
  return {"", "", 0, "", "measured_down", {from, {"step", steps.front()}}};
}

/// The pointer of a pour's measure that is a spoon (or an ounce); empty if there is none.
std::string measure_pointer(const DosePlace& at, std::size_t pour, bool of_ounces) {
  const auto& measures = at.dose->pours->amounts.at(pour).measure;
  for (std::size_t i = 0; i < measures.size(); ++i) {
    if (is_ounce(measures[i].unit) != of_ounces) continue;
    return fmt::format("{}/portions/{}/measure/{}", at.prefix, pour, i);
  }
  return "";
}

std::string spooned_size(Asking& asking, const DosePlace& at, std::size_t pour,
                         const std::string& pointer) {
  const std::string unit = asking.in_plan().text(pointer + "/unit").value_or("");
  return asking.put(
      fmt::format("{}/portions/{}#spooned", at.prefix, pour), "spooned", unit_of_amount(at),
      "product",
      {{"count", asking.ask(pointer + "/count")}, {"spoonful", spoonful(asking, at, unit)}});
}

/// Half of what a tablet brings is spent meanwhile: as much as its bromine.
std::string spent_in_floater(Asking& asking, const DosePlace& at) {
  return asking.put(
      at.prefix + "#spent_meanwhile", "spent_meanwhile", "mg/L as Br2", "product",
      {{"dissolved", poured_mg_l(asking, at, 1)},
       {"bromine_per_mg", per_product(asking, at.dose->supply->product(), "total_bromine_mg_l")}});
}

/// A tablet's own weight times how many.
Node weight_of_tablets(Asking& asking, const DosePlace& at) {
  const Product& product = at.dose->supply->product();
  const auto source = product.sources.find("dissolves");
  const std::string piece =
      data_row(asking, fmt::format("products.json: {}/dissolves/piece_g", product.id), "one_tablet",
               product.dissolves->piece_g, "g",
               source == product.sources.end() ? definition("") : source->second);
  return {
      "",
      "",
      0,
      "",
      "product",
      {{"count", asking.ask(at.prefix + "/portions/0/measure/0/count")}, {"one_tablet", piece}}};
}

}  // namespace

Node explain_amount(Asking& asking, const Place& place) {
  if (floater_at(asking, place) != nullptr) return weight_of_floater(asking, place);
  const DosePlace at = dose_of(asking, place);
  Node node{"", "", 0, "", "sum", {}};
  for (std::size_t i = 0; i < at.dose->pours->amounts.size(); ++i) {
    node.inputs.push_back(
        {fmt::format("pour_{}", i + 1),
         asking.ask(fmt::format("{}/portions/{}/{}", place.prefix, i, amount_key(at)))});
  }
  return node;
}

Node explain_compound(Asking& asking, const Place& place) {
  const DosePlace at = dose_of(asking, place);
  const Product& product = at.dose->supply->product();
  if (at.dose->pours->days > 0) {
    return {"",
            "",
            0,
            "",
            "product",
            {{"dissolved", dissolved(asking, at)},
             {"mass_fraction", mass_fraction(asking, product, place.parts.back())}}};
  }
  Node node{"",        "grams_of_" + place.parts.back(),
            0,         "",
            "product", {{"amount", asking.ask(place.prefix + "/" + amount_key(at))}}};
  if (product.form == Form::liquid) {
    node.inputs.push_back({"density", product_row(asking, product, "density",
                                                  product.density_g_ml.value_or(1), "g/mL")});
  }
  node.inputs.push_back({"mass_fraction", mass_fraction(asking, product, place.parts.back())});
  return node;
}

Node explain_spending(Asking& asking, const Place& place) {
  const DosePlace at = dose_of(asking, place);
  const std::string& key = place.parts.back();
  const double stated = asking.in_plan().number(place.pointer).value_or(0);
  const std::string demand =
      at.dose->spends_per_mg > 0 ? spent_in_floater(asking, at) : sanitizer_demand_node(asking);
  if (agrees(asking.value(demand), stated)) return same_as(asking, demand);
  const std::string all =
      asking.put(at.prefix + "#all_there_is", "all_there_is", unit_of_key(key), "within_room",
                 {{"before", reading_of(asking, asking.before(at.move), key)},
                  {"amount", asking.ask(place.prefix + "/" + amount_key(at))}},
                 stated);
  return {"", "", 0, "", "smallest", {{"demand", demand}, {"all_there_is", all}}};
}

Node explain_pour(Asking& asking, const Place& place) {
  if (floater_at(asking, place) != nullptr) return weight_of_floater(asking, place);
  const DosePlace at = dose_of(asking, place);
  const std::size_t pour = pour_index(place);
  if (at.dose->pours->days > 0) return weight_of_tablets(asking, at);
  const double stated = asking.in_plan().number(place.pointer).value_or(0);
  const std::string ounces = measure_pointer(at, pour, true);
  if (!ounces.empty()) {
    const std::string unit = asking.in_plan().text(ounces + "/unit").value_or("");
    return {"",        "",
            0,         "",
            "product", {{"count", asking.ask(ounces + "/count")}, {"one", ounce(asking, unit)}}};
  }
  const std::string spoons = measure_pointer(at, pour, false);
  const std::string from =
      spoons.empty() ? unrounded(asking, at, pour) : spooned_size(asking, at, pour, spoons);
  return rounded(asking, {spoons.empty() ? "unrounded" : "spooned", from},
                 steps_of_scale(asking, at), stated);
}

Node explain_count(Asking& asking, const Place& place) {
  if (floater_at(asking, place) != nullptr) return count_of_floater(asking, place);
  const DosePlace at = dose_of(asking, place);
  if (at.dose->pours->days > 0) {
    return {"",        "",
            0,         "",
            "tablets", {{"asked", asked_amount(asking, at)}, {"g_per_day", g_per_day(asking, at)}}};
  }
  const std::size_t pour = pour_index(place);
  const double stated = asking.in_plan().number(place.pointer).value_or(0);
  const std::size_t cut = place.pointer.rfind('/');
  const std::string unit =
      asking.in_plan().text(place.pointer.substr(0, cut) + "/unit").value_or("");
  const std::string spoons = measure_pointer(at, pour, false);
  const bool is_beside_spoons = is_ounce(unit) && !spoons.empty();
  const std::string size =
      is_beside_spoons ? spooned_size(asking, at, pour, spoons) : unrounded(asking, at, pour);
  const std::string one = is_ounce(unit) ? ounce(asking, unit) : spoonful(asking, at, unit);
  const std::string exact = asking.put(place.pointer + "#exact", "count_unrounded", unit,
                                       "quotient", {{"amount", size}, {"one", one}});
  const MeasureSystem& measure = asking.request.measure;
  double grain = measure.grain_oz;
  std::string field = "grain_oz";
  for (const Spoon& spoon : measure.spoons) {
    if (spoon.unit != unit) continue;
    grain = spoon.grain;
    field = "spoons/" + unit + "/grain";
  }
  return rounded(asking, {"count_unrounded", exact},
                 {grain_row(asking, field, grain, unit, "grains")}, stated);
}

}  // namespace tub::why
