// Carbon dioxide: how far it is released, for how long the jets run, what it does later.
#include <fmt/format.h>

#include "chemistry/gas.h"
#include "planning/pours/pouring.h"
#include "why/aims.h"
#include "why/asking.h"
#include "why/equations.h"
#include "why/grounds.h"
#include "why/rules.h"

namespace tub::why {
namespace {

constexpr const char* carbon_key = "inorganic_carbon_mmol_kg";

Provenance read(const std::string& source) {
  const bool is_ours = source.find("assum") != std::string::npos;
  return {is_ours ? Provenance::Kind::assumption : Provenance::Kind::published, source};
}

std::string air(Asking& asking) {
  const GasExchange& gas = asking.species.gas_exchange();
  return data_row(asking, "species.json: gas_exchange/air_log10_pco2_atm", "air",
                  gas.air_log10_pco2_atm, "log10 of atm", read(gas.air_source));
}

/// A water with its carbon dioxide that of `by`.
std::string aired(Asking& asking, const std::string& id, const std::string& from,
                  const std::string& by) {
  if (asking.waters.has(id)) return id;
  const Water water =
      exchange_carbon_dioxide(water_named(asking, from).water, asking.value(by), asking.species);
  asking.waters.add(id,
                    {water, asking.situation.bench.state(water), {Making::Kind::aired, from, by}});
  return id;
}

/// A water with all of a sanitizer spent.
std::string all_spent(Asking& asking, const std::string& id, const std::string& from,
                      Reading sanitizer) {
  if (asking.waters.has(id)) return id;
  const Water before = water_named(asking, from).water;
  const Water water = sanitizer == Reading::total_bromine ? spend_all_total_bromine(before)
                                                          : spend_all_free_chlorine(before);
  Making making{Making::Kind::spent, from};
  making.sanitizer = sanitizer;
  making.spent = reading_of(asking, from, key_of(sanitizer));
  asking.waters.add(id, {water, asking.situation.bench.state(water), making});
  return id;
}

/// The final water with its sanitizer spent.
std::string spent(Asking& asking) {
  const std::string chlorine =
      all_spent(asking, "/drift#chlorine_spent", "/final", Reading::free_chlorine);
  if (asking.plan.final.total_bromine_mg_l == 0) return chlorine;
  return all_spent(asking, "/drift#spent", chlorine, Reading::total_bromine);
}

std::string surplus(Asking& asking, const std::string& id, const std::string& water,
                    const std::string& in_air) {
  return asking.put(id, "surplus_of_carbon_dioxide", "mmol/kg", "difference",
                    {{"inorganic_carbon", reading_of(asking, water, carbon_key)},
                     {"in_equilibrium_with_air", reading_of(asking, in_air, carbon_key)}});
}

std::string half_way(Asking& asking) {
  const std::string id = "/drift#half_way";
  if (asking.waters.has(id)) return id;
  const std::string from = spent(asking);
  const std::string at_air = aired(asking, "/drift#at_air", from, air(asking));
  const std::string whole = surplus(asking, "/drift#surplus", from, at_air);
  const std::string two = constant(asking, "half", 2, "", definition("half of the surplus"));
  const std::string half = asking.put("/drift#half", "half_of_the_surplus", "mmol/kg", "quotient",
                                      {{"surplus", whole}, {"two", two}});
  Water water = water_named(asking, from).water;
  water.totals[Component::carbonate] -= asking.value(half) * 1e-3;
  asking.waters.add(id,
                    {water, asking.situation.bench.state(water), {Making::Kind::lost, from, half}});
  return id;
}

/// The water that the jets find: in a turn, after its acid.
std::string before_jets(Asking& asking, const Place& place) {
  const auto* rounds = std::get_if<RoundsMove>(&asking.draft.at(place.move));
  if (rounds == nullptr) return asking.before(place.move);
  return after_pours(asking, place.move, rounds->dose.pours->amounts.size());
}

std::string rate(Asking& asking, const std::string& end) {
  const GasExchange& gas = asking.species.gas_exchange();
  const double value = end == "low"    ? gas.jets_on.high
                       : end == "high" ? gas.jets_on.low
                                       : gas.jets_on.value;
  const std::string which = end == "low" ? "high" : end == "high" ? "low" : "value";
  return data_row(asking, "species.json: gas_exchange/jets_on/" + which, "rate_of_the_jets", value,
                  "1/h", read(gas.rates_source));
}

}  // namespace

Node explain_release(Asking& asking, const Place& place) {
  const Bench& bench = asking.situation.bench;
  const double final_ph = bench.ph(bench.after(asking.situation.start.water, asking.draft));
  const std::string step = asking.step_of(place.move);
  Node node{"", "", 0, "", "root_of", {}};
  node.inputs.push_back(
      {"aim", aim_node(asking, place.prefix, Reading::ph, final_ph, asking.solved)});
  node.inputs.push_back(
      {"alkalinity", reading_of(asking, asking.before(place.move), "total_alkalinity_mg_l")});
  node.inputs.push_back({"air", air(asking)});
  node.inputs.push_back({"step", constant(asking, "step of a release", 0.01, "log10 of atm",
                                          assumed_by_us("finer cannot be told by any test"))});
  static_cast<void>(step);
  return node;
}

Node explain_jets(Asking& asking, const Place& place) {
  const std::string from = before_jets(asking, place);
  const std::string to = asking.ask(place.prefix + "/to_log10_pco2_atm");
  if (asking.in_plan().number(place.pointer) == 0) {
    return same_as(asking, constant(asking, "no jets needed", 0, "h",
                                    definition("the water holds no more than that already")));
  }
  const std::string target = aired(asking, place.prefix + "#released", from, to);
  const std::string at_air = aired(asking, place.prefix + "#at_air", from, air(asking));
  const std::string before = surplus(asking, place.prefix + "#surplus_before", from, at_air);
  const std::string after = surplus(asking, place.prefix + "#surplus_after", target, at_air);
  const std::string ratio =
      asking.put(place.prefix + "#logarithm", "logarithm_of_the_surpluses", "",
                 "logarithm_of_ratio", {{"surplus_before", before}, {"surplus_after", after}});
  return {
      "",         "",
      0,          "",
      "quotient", {{"logarithm", ratio}, {"rate_of_the_jets", rate(asking, place.parts.back())}}};
}

Node explain_drift(Asking& asking, const Place& place) {
  const std::string& name = place.parts.back();
  if (name == "ph_half_way") return same_as(asking, reading_of(asking, half_way(asking), "ph"));
  const std::string at_air = aired(asking, "/drift#at_air", spent(asking), air(asking));
  const std::string key = name == "ph_at_air" ? "ph" : "saturation_index";
  return same_as(asking, reading_of(asking, at_air, key));
}

}  // namespace tub::why
