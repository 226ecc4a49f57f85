#include "why/aims.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "why/asking.h"
#include "why/equations.h"
#include "why/grounds.h"
#include "why/product_factors.h"
#include "why/spreads.h"

namespace tub::why {
namespace {

/// pH is solved to nine digits, aims settle in a few turns.
constexpr double as_good_as_equal = 1e-6;
/// The aim and its reach were solved in turn, the last turn of the aim: a share of the reach.
constexpr double as_good_a_reach = 0.1;

bool is_near(double a, double b) { return std::abs(a - b) <= as_good_as_equal; }

bool is_single(const Asking& asking, const DosePlace& at) {
  return at.dose->goal == asking.situation.sanitizer.reading ||
         at.dose->goal == Reading::calcium_hardness;
}

/// How many equal steps share what was asked for.
int steps_of(const Asking& asking, const DosePlace& at) {
  const auto is_its = [&](const Move& move) {
    const auto* dose = std::get_if<DoseMove>(&move);
    return dose != nullptr && dose->goal == at.dose->goal && dose->supply == at.dose->supply;
  };
  return static_cast<int>(std::count_if(asking.draft.begin(), asking.draft.end(), is_its));
}

const DoseMove* solved_dose(const Asking& asking, const DosePlace& at) {
  for (const Move& move : asking.solved) {
    const auto* dose = std::get_if<DoseMove>(&move);
    if (dose != nullptr && dose->goal == at.dose->goal && dose->supply == at.dose->supply) {
      return dose;
    }
  }
  return nullptr;
}

/// The draft as it was solved, with or without this dose; up to and with it, for a single reading.
Draft solved_without(const Asking& asking, const DosePlace& at) {
  Draft draft;
  for (const Move& move : asking.solved) {
    const auto* dose = std::get_if<DoseMove>(&move);
    if (dose != nullptr && dose->goal == at.dose->goal && dose->supply == at.dose->supply) continue;
    draft.push_back(move);
  }
  return draft;
}

/// What a move puts in, all its turns together.
std::optional<DoseMove> whole_dose(const Move& move) {
  if (const auto* dose = std::get_if<DoseMove>(&move)) return *dose;
  const auto* rounds = std::get_if<RoundsMove>(&move);
  if (rounds == nullptr) return std::nullopt;
  DoseMove all = rounds->dose;
  all.mg_l *= rounds->times;
  return all;
}

struct SolvedChange {
  std::string mg_l;  ///< node of the dose
  double change = 0;
};

/// What a dose does to a reading; a sanitizer's demand takes back some of what it brings.
std::string change_by(Asking& asking, const std::string& id, const std::string& key,
                      const DoseMove& dose, const SolvedChange& solved) {
  const std::string& product = dose.supply->product().id;
  const std::string unit = unit_of_key(key);
  const std::string each = per_product(asking, dose.supply->product(), key);
  const bool spends = dose.spends_mg_l > 0;
  const double straight = asking.value(solved.mg_l) * asking.value(each);
  if (dose.spends_per_mg > 0 || (!spends && !agrees(straight, solved.change))) {
    // Tablets spend while they dissolve, and what meets bromide turns it to bromine.
    return asking.put(id, "change_by_" + product, unit, "solved", {{"dose", solved.mg_l}},
                      solved.change);
  }
  const std::string brought = asking.put(spends ? id + "/brought" : id, "change_by_" + product,
                                         unit, "product", {{"dose", solved.mg_l}, {"per_mg", each}},
                                         spends ? std::nullopt : std::optional(solved.change));
  if (!spends) return brought;
  std::vector<Input> inputs = {{"brought", brought}};
  const std::string per_spending = per_spent(asking, *dose.goal, key);
  if (!per_spending.empty()) {
    inputs.push_back({"by_demand", asking.put(id + "/spent", "change_by_demand", unit, "product",
                                              {{"demand", sanitizer_demand_node(asking)},
                                               {"per_mg", per_spending}})});
  }
  return asking.put(id, "change_by_" + product, unit, "sum", std::move(inputs), solved.change);
}

/// What the other steps, as they were solved, leave of the reading in the final water.
std::string without_it(Asking& asking, const DosePlace& at, const std::string& key) {
  const Draft draft = solved_without(asking, at);
  const Bench& bench = asking.situation.bench;
  const auto reading = [&](const Water& water) { return bench.reading(*at.dose->goal, water); };
  std::vector<Input> inputs = {{"start", reading_of(asking, asking.before(0), key)}};
  Water water = asking.situation.start.water;
  for (const Move& move : draft) {
    const Water after = bench.after(water, move);
    const double change = reading(after) - reading(water);
    water = after;
    const std::optional<DoseMove> dose = whole_dose(move);
    if (!dose || change == 0) continue;
    const std::string& product = dose->supply->product().id;
    const std::string id = fmt::format("{}#other/{}", at.prefix, inputs.size());
    const std::string mg_l =
        asking.put(Node{id + "/mg_l",
                        "unrounded_dose_of_" + product,
                        0,
                        "mg/L",
                        "root_of",
                        {{"its_own_aim", goal_end(asking, *dose->goal, nullptr)}}},
                   dose->mg_l);
    inputs.push_back({"by_" + product, change_by(asking, id, key, *dose, {mg_l, change})});
  }
  const bool is_whole = inputs.size() > 1;
  return asking.put(at.prefix + "#without", "final_without_it", unit_of_key(key),
                    is_whole ? "sum" : "same", std::move(inputs), reading(water));
}

/// An end of a band that is aimed into; no node: open.
struct End {
  std::string node;
  double value = 0;
};
struct AimedBand {
  End low;
  End high;
};

/// The goal's band; that of pH only as far as the window for pours goes.
AimedBand aimed_band(Asking& asking, Reading reading, const Goal& goal) {
  AimedBand band;
  const Assumed& window = asking.data.assumptions.pour_ph;
  const bool is_ph = reading == Reading::ph;
  if (goal.band.low) band.low = {goal_end(asking, reading, "low"), *goal.band.low};
  if (goal.band.high) band.high = {goal_end(asking, reading, "high"), *goal.band.high};
  if (is_ph && goal.band.low.value_or(0) < window.low) {
    band.low = {assumption(asking, window, "low"), window.low};
  }
  if (is_ph && goal.band.high.value_or(14) > window.high) {
    band.high = {assumption(asking, window, "high"), window.high};
  }
  return band;
}

struct EdgeAim {
  double aim = 0;
  bool is_low = false;
  End end;
};

/// The edge and the reach of the interval, if that is where the aim is from.
std::string by_edge(Asking& asking, const std::string& step, Reading reading, const EdgeAim& edge,
                    const Draft& whole) {
  const std::string id = step + "#aim";
  const std::string unit = unit_of_key(key_of(reading));
  const double reach = edge.is_low ? edge.aim - edge.end.value : edge.end.value - edge.aim;
  const Interval interval = asking.situation.uncertainty().spread(reading, whole).interval();
  const double found = edge.is_low ? interval.value - interval.low : interval.high - interval.value;
  const std::string name = edge.is_low ? "low" : "high";
  const Resumption* const before = asking.situation.resumption();
  if (before != nullptr && before->aims.contains(reading)) {
    return asking.put(id, "aim", unit, "kept", {{name, edge.end.node}}, edge.aim);
  }
  if (std::abs(reach - found) > as_good_a_reach * found) {
    return asking.put(id, "aim", unit, "within_room", {{name, edge.end.node}}, edge.aim);
  }
  const std::string node = reach_node(asking, step, reading, reach, whole);
  return asking.put(id, "aim", unit, edge.is_low ? "sum" : "difference",
                    {{name, edge.end.node}, {"reach", node}}, edge.aim);
}

/// The reading rises by so much a mg, whatever else is in the water.
bool is_linear(const Asking& asking, const DoseMove& dose) {
  if (*dose.goal == Reading::ph || dose.spends_per_mg > 0) return false;
  const Totals& start = asking.situation.start.water.totals;
  const bool has_bromide = start[Component::bromide] > 0 || start[Component::bromine] > 0;
  const bool is_oxidant = dose.goal == asking.situation.sanitizer.reading;
  return !is_oxidant || (*dose.goal == Reading::free_chlorine && !has_bromide);
}

/// (aim + what it spends - the reading without it) / what a mg of the product is worth.
std::string linear_dose(Asking& asking, const DosePlace& at, const std::string& key,
                        const DoseMove& solved) {
  const std::string each = per_product(asking, at.dose->supply->product(), key);
  std::string before;
  double aim = solved.mg_l * asking.value(each);
  std::vector<Input> missing;
  Draft whole = asking.solved;
  if (is_single(asking, at)) {
    whole = {solved};
    if (key == "calcium_hardness_mg_l") before = without_it(asking, at, key);
  } else {
    before = without_it(asking, at, key);
  }
  if (before.empty()) before = reading_of(asking, asking.before(0), key);
  aim += asking.value(before) - solved.spends_mg_l;
  missing.push_back({"aim", aim_node(asking, at.prefix, *at.dose->goal, aim, whole)});
  const std::string to = asking.put(
      at.prefix + "#to_reach", "to_reach", unit_of_key(key), "sum",
      solved.spends_mg_l > 0
          ? std::vector<Input>{missing.front(), {"demand", sanitizer_demand_node(asking)}}
          : missing);
  const std::string rise = asking.put(at.prefix + "#missing", "missing", unit_of_key(key),
                                      "difference", {{"to_reach", to}, {"without_it", before}});
  return asking.put(at.prefix + "#whole_mg_l", "dose_in_all", "mg/L of product", "quotient",
                    {{"missing", rise}, {"per_mg", each}}, solved.mg_l);
}

/// What the steps after this one, as they were solved, do to pH.
void add_later(Asking& asking, const DosePlace& at, const Draft& whole,
               std::vector<Input>& inputs) {
  const Bench& bench = asking.situation.bench;
  Water water = asking.situation.start.water;
  for (std::size_t i = 0; i < whole.size(); ++i) {
    const Water after = bench.after(water, whole[i]);
    const auto* dose = std::get_if<DoseMove>(&whole[i]);
    if (i > at.move && dose != nullptr && dose->goal) {
      const std::string& product = dose->supply->product().id;
      const std::string id = fmt::format("{}#later/{}", at.prefix, i);
      inputs.push_back({"later_by_" + product,
                        asking.put(id, "pH_moved_later_by_" + product, "pH", "equilibrium",
                                   {{"its_aim", goal_end(asking, *dose->goal, nullptr)}},
                                   bench.ph(after) - bench.ph(water))});
    }
    water = after;
  }
}

/// pH has no sum: the amount is found on the final water.
std::string root_dose(Asking& asking, const DosePlace& at, double mg_l) {
  Draft whole = asking.draft;
  if (!at.is_in_rounds) std::get<DoseMove>(whole.at(at.move)).mg_l = mg_l;
  const Bench& bench = asking.situation.bench;
  const double aim =
      bench.reading(*at.dose->goal, bench.after(asking.situation.start.water, whole));
  std::vector<Input> inputs = {
      {"aim", aim_node(asking, at.prefix, *at.dose->goal, aim, asking.solved)}};
  const std::string from = asking.before(at.move);
  for (const char* key : {"ph", "total_alkalinity_mg_l", "inorganic_carbon_mmol_kg"}) {
    inputs.push_back({key, reading_of(asking, from, key)});
  }
  for (const Product::Part& part : at.dose->supply->product().parts) {
    const std::string each = per_compound(asking, part.formula, "total_alkalinity_mg_l");
    if (!each.empty()) inputs.push_back({"alkalinity_per_mg_of_" + part.formula, each});
    inputs.push_back({part.formula + "_in_product",
                      mass_fraction(asking, at.dose->supply->product(), part.formula)});
  }
  add_later(asking, at, whole, inputs);
  return asking.put(at.prefix + "#mg_l", "unrounded_dose", "mg/L of product", "root_of",
                    std::move(inputs), mg_l);
}

}  // namespace

std::string goal_end(Asking& asking, Reading reading, const char* end) {
  const Goal* goal = asking.situation.goal(reading);
  const bool is_low = end == nullptr ? goal != nullptr && goal->band.low.has_value()
                                     : std::string_view(end) == "low";
  const std::string key(key_of(reading));
  if (reading == asking.situation.sanitizer.reading) {
    return asking.ask(fmt::format("/gate/{}/{}", key, is_low ? "low" : "high"));
  }
  const std::string target = fmt::format("/targets/readings/{}/{}", key, is_low ? "low" : "high");
  const auto edge = is_low ? goal->band.low : goal->band.high;
  // The gate may end before the band does, or ask where the set is silent.
  const bool is_of_set = asking.in_plan().number(target) == edge;
  return asking.ask(is_of_set ? target : fmt::format("/gate/{}/{}", key, is_low ? "low" : "high"));
}

std::string aim_node(Asking& asking, const std::string& step, Reading reading, double aim,
                     const Draft& whole) {
  const Goal* goal = asking.situation.goal(reading);
  const std::string id = step + "#aim";
  const std::string unit = unit_of_key(key_of(reading));
  if (goal == nullptr) return asking.put(id, "aim", unit, "within_room", {}, aim);
  if (goal->ideal && is_near(*goal->ideal, aim)) {
    const std::string ideal = fmt::format("/targets/readings/{}/ideal", key_of(reading));
    if (asking.in_plan().number(ideal) == *goal->ideal) {
      return asking.put(id, "aim", unit, "same", {{"ideal", asking.ask(ideal)}}, aim);
    }
    // A plan that goes on after a retest goes on to the same water.
    return asking.put(id, "aim", unit, "kept", {{"band", goal_end(asking, reading, nullptr)}}, aim);
  }
  const AimedBand band = aimed_band(asking, reading, *goal);
  if (band.low.node.empty() || band.high.node.empty()) {
    const bool is_low = !band.low.node.empty();
    return by_edge(asking, step, reading, {aim, is_low, is_low ? band.low : band.high}, whole);
  }
  if (is_near((band.low.value + band.high.value) / 2, aim)) {
    return asking.put(id, "aim", unit, "mean", {{"low", band.low.node}, {"high", band.high.node}},
                      aim);
  }
  const bool is_low = aim - band.low.value <= band.high.value - aim;
  return by_edge(asking, step, reading, {aim, is_low, is_low ? band.low : band.high}, whole);
}

std::string asked_mg_l(Asking& asking, const DosePlace& at, double mg_l) {
  const std::string key(key_of(*at.dose->goal));
  const DoseMove* solved = solved_dose(asking, at);
  if (at.is_in_rounds || solved == nullptr || !is_linear(asking, *solved)) {
    return root_dose(asking, at, mg_l);
  }
  const std::string whole = linear_dose(asking, at, key, *solved);
  const int steps = steps_of(asking, at);
  const std::string id = at.prefix + "#mg_l";
  if (agrees(asking.value(whole), mg_l)) {
    return asking.put(id, "unrounded_dose", "mg/L of product", "same", {{"in_all", whole}}, mg_l);
  }
  if (agrees(asking.value(whole) / steps, mg_l)) {
    const std::string count =
        constant(asking, fmt::format("{} steps", steps), steps, "",
                 definition("two pours within the product's limit cannot carry it all"));
    return asking.put(id, "unrounded_dose", "mg/L of product", "quotient",
                      {{"in_all", whole}, {"steps", count}}, mg_l);
  }
  return asking.put(id, "unrounded_dose", "mg/L of product", "within_room", {{"in_all", whole}},
                    mg_l);
}

}  // namespace tub::why
