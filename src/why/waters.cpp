#include "why/waters.h"

#include <fmt/format.h>

#include "why/asking.h"
#include "why/grounds.h"
#include "why/pours.h"
#include "why/product_factors.h"

namespace tub::why {
namespace {

using Kind = Making::Kind;

NamedWater named(const Asking& asking, const Water& water, Making making) {
  return {water, asking.situation.bench.state(water), std::move(making)};
}

/// What a step puts in, each time it is done.
std::vector<Part> parts_of_step(Asking& asking, const std::string& step, const DoseMove& dose) {
  std::vector<Part> parts;
  for (const Product::Part& part : dose.supply->product().parts) {
    const std::string id = fmt::format("{}#mg_l/{}", step, part.formula);
    const std::string grams = fmt::format("{}/adds_g/{}", step, part.formula);
    parts.push_back(
        {part.formula,
         asking.put(id, "mg_per_litre_of_" + part.formula, "mg/L", "milligrams_per_litre",
                    {{"grams", asking.ask(grams)}, {"litres", asking.volume()}})});
  }
  return parts;
}

/// How a move of the draft made the water after it.
class MakingOf {
 public:
  MakingOf(Asking& asking, std::size_t move)
      : asking_(asking),
        step_(asking.step_of(move)),
        from_(asking.before(move)),
        before_(water_named(asking, from_).water) {}

  Making operator()(const HeatMove&) const {
    return {Kind::heated, from_, asking_.ask(step_ + "/to_c")};
  }
  Making operator()(const ReleaseMove&) const {
    return {Kind::aired, from_, asking_.ask(step_ + "/to_log10_pco2_atm")};
  }
  Making operator()(const DoseMove& dose) const {
    Making making{Kind::dosed, from_};
    making.parts = parts_of_step(asking_, step_, dose);
    if (dose.goal) {
      making.sanitizer = *dose.goal;
      const std::string spends = fmt::format("{}/spends/{}", step_, key_of(*dose.goal));
      if (asking_.in_plan().number(spends)) making.spent = asking_.ask(spends);
    }
    return making;
  }
  Making operator()(const FloaterMove&) const { return {Kind::same, from_}; }
  Making operator()(const RoundsMove& rounds) const {
    const std::string all = step_ + "#all_turns";
    Making dosed{Kind::dosed, from_};
    const std::string times = asking_.ask(step_ + "/times");
    for (const Part& part : parts_of_step(asking_, step_ + "/steps/0", rounds.dose)) {
      const std::string id = fmt::format("{}#mg_l/{}", step_, part.formula);
      dosed.parts.push_back({part.formula, asking_.put(id, "mg_per_litre_in_all", "mg/L", "product",
                                                       {{"turns", times}, {"each", part.mg_l}})});
    }
    DoseMove dose = rounds.dose;
    dose.mg_l *= rounds.times;
    asking_.waters.add(
        all, named(asking_, asking_.situation.bench.after(before_, Move{dose}), std::move(dosed)));
    return {Kind::aired, all, asking_.ask(step_ + "/steps/1/to_log10_pco2_atm")};
  }

 private:
  Asking& asking_;
  std::string step_;
  std::string from_;
  Water before_;
};

NamedWater after_move(Asking& asking, std::size_t move) {
  const Move& done = asking.draft.at(move);
  const Water before = water_named(asking, asking.before(move)).water;
  return named(asking, asking.situation.bench.after(before, done),
               std::visit(MakingOf(asking, move), done));
}

NamedWater from_slip(const Asking& asking, const std::string& slip) {
  const StartWater start = start_water(asking.slip_readings(slip), asking.data, asking.species);
  return {start.water, start.state, {Kind::slip, slip}};
}

/// The water after a share of it was replaced, before any move.
NamedWater refilled_water(Asking& asking, const std::string& step) {
  Making making{Kind::mixed, "/start", asking.ask(step + "/fraction"), "/second_source"};
  return {asking.situation.start.water, asking.situation.start.state, std::move(making)};
}

NamedWater made(Asking& asking, const std::string& id) {
  if (id == "/start" && asking.situation.resumption() != nullptr) {
    const StartWater& judged = asking.situation.resumption()->start;
    return {judged.water, asking.plan.start, {Kind::judged, asking.slip()}};
  }
  if (id == "/start") return from_slip(asking, asking.slip());
  if (id == "/second_source") return from_slip(asking, id);
  if (id == "/final") {
    const std::string last = asking.before(asking.draft.size());
    return {water_named(asking, last).water, asking.plan.final, {Kind::same, last}};
  }
  const Place place = asking.place(id + "/ph");
  if (place.step != nullptr && std::holds_alternative<Replace>(place.step->what)) {
    return refilled_water(asking, place.prefix);
  }
  return after_move(asking, place.move);
}

}  // namespace

const NamedWater& water_named(Asking& asking, const std::string& id) {
  if (!asking.waters.has(id)) asking.waters.add(id, made(asking, id));
  return asking.waters.at(id);
}

double WaterState::*member_of(std::string_view key) {
  for (const auto& known : reading_keys) {
    if (known.name == key) return known.member;
  }
  for (const auto& known : derived_keys) {
    if (known.name == key) return known.member;
  }
  return &WaterState::ph;
}

double number_of(const WaterState& state, std::string_view key) { return state.*member_of(key); }

namespace {

/// A pour's own spending: what the step says, where it is the same; else what there is of it.
std::string spent_of_pour(Asking& asking, const DosePlace& at, const std::string& water) {
  const std::string key(key_of(*at.dose->goal));
  const std::string there = reading_of(asking, water + "_unspent", key);
  if (at.dose->spends_per_mg > 0) return asking.ask(at.prefix + "/spends/" + key);
  return asking.put(water + "_spent", "spent", unit_of_key(key), "smallest",
                    {{"demand", sanitizer_demand_node(asking)}, {"there_is", there}});
}

}  // namespace

std::string after_pours(Asking& asking, std::size_t move, std::size_t pours) {
  const DosePlace at = dose_at(asking, move);
  const std::string id = fmt::format("{}/portions/{}#water", at.prefix, pours - 1);
  if (asking.waters.has(id)) return id;
  const std::string poured = poured_mg_l(asking, at, pours);
  Making making{Kind::dosed, asking.before(move)};
  for (const Product::Part& part : at.dose->supply->product().parts) {
    const std::string mg_l =
        fmt::format("{}/portions/{}#mg_l/{}", at.prefix, pours - 1, part.formula);
    making.parts.push_back(
        {part.formula,
         asking.put(mg_l, "mg_per_litre_of_" + part.formula, "mg/L", "product",
                    {{"product", poured},
                     {"mass_fraction",
                      mass_fraction(asking, at.dose->supply->product(), part.formula)}})});
  }
  DoseMove part = *at.dose;
  part.mg_l = asking.value(poured);
  const Bench& bench = asking.situation.bench;
  const Water before = water_named(asking, making.from).water;
  if (part.spends_mg_l > 0 || part.spends_per_mg > 0) {
    making.sanitizer = *part.goal;
    DoseMove unspent = part;
    unspent.spends_mg_l = 0;
    unspent.spends_per_mg = 0;
    asking.waters.add(id + "_unspent", named(asking, bench.after(before, Move{unspent}), making));
    making.spent = spent_of_pour(asking, at, id);
  }
  asking.waters.add(id, named(asking, bench.after(before, Move{part}), std::move(making)));
  return id;
}

}  // namespace tub::why
