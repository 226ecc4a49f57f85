// What the retest should show: expectations, bands carried back, chances, and what follows.
#include <fmt/format.h>

#include <algorithm>

#include "planning/pours/pour_out.h"
#include "why/aims.h"
#include "why/asking.h"
#include "why/equations.h"
#include "why/grounds.h"
#include "why/pours.h"
#include "why/product_factors.h"
#include "why/rules.h"
#include "why/spreads.h"

namespace tub::why {
namespace {

const TestRow* retest_row(const Asking& asking, Reading reading) {
  const auto& rows = asking.request.retest_with.rows;
  const auto row = rows.find(reading);
  return row == rows.end() ? nullptr : &row->second;
}

std::string division_node(Asking& asking, Reading reading) {
  const TestRow* row = retest_row(asking, reading);
  return data_row(asking,
                  fmt::format("test_methods.json: {}/{}/division", asking.request.retest_with.id,
                              name_of(reading)),
                  "division", row->division, unit_of_key(key_of(reading)), row->source);
}

/// The moves up to this pour, as the spread of its expectation has them.
Draft until_pour(const Asking& asking, const DosePlace& at, double mg_l) {
  Draft until(asking.draft.begin(), asking.draft.begin() + static_cast<std::ptrdiff_t>(at.move));
  DoseMove part = *at.dose;
  part.mg_l = mg_l;
  until.emplace_back(part);
  return until;
}

/// A pour's water, and how far a reading of it may be off.
struct Expected {
  std::string value;
  SpreadOf spread;
};

Expected expected_of(Asking& asking, const DosePlace& at, std::size_t pours, Reading reading) {
  const std::string water = after_pours(asking, at.move, pours);
  const std::string key(key_of(reading));
  const std::string value = reading_of(asking, water, key);
  const double mg_l = asking.value(poured_mg_l(asking, at, pours));
  const std::string id = fmt::format("{}/portions/{}#{}", at.prefix, pours - 1, key);
  return {value, spread_of(asking, id, key, value, until_pour(asking, at, mg_l))};
}

/// low or high of what a retest should show: the end of its range, outward to its steps.
Node expected_end(Asking& asking, const Place& place, const DosePlace& at, Reading reading,
                  Expected expected) {
  const std::string end = place.parts.back();
  const std::string key(key_of(reading));
  const std::string id = place.pointer + "#unrounded";
  add_retest(asking, id, reading, expected.spread);
  const std::string quantile = quantile_node(asking, id, unit_of_key(key), expected.spread, end);
  if (retest_row(asking, reading) == nullptr && asking.value(quantile) == asking.stated(place)) {
    return same_as(asking, quantile);
  }
  Node node{"", "", 0, "", end == "low" ? "round_down_to" : "round_up_to", {{"end", quantile}}};
  if (reading == Reading::ph && end == "high") {
    const std::string lost =
        assumption(asking, asking.data.assumptions.carbon_dioxide_lost_per_wait, "high");
    node.equation = "expected_end";
    node.inputs.push_back({"carbon_dioxide_lost_in_each_wait", lost});
  }
  if (retest_row(asking, reading) != nullptr) {
    node.inputs.push_back({"division", division_node(asking, reading)});
  }
  static_cast<void>(at);
  if (node.inputs.size() != 2 || node.equation == "expected_end") return node;
  const std::array terms = {Term{"", asking.value(quantile)},
                            Term{"", asking.value(node.inputs[1].node)}};
  if (agrees(equation(node.equation).value(terms), asking.stated(place))) return node;
  // No test shows less than nothing.
  const std::string below = asking.put(place.pointer + "#rounded", "rounded", unit_of_key(key),
                                       node.equation, node.inputs);
  const std::string zero = constant(asking, "nothing", 0, "mg/L", definition("not below zero"));
  return {"", "", 0, "", "largest", {{"rounded", below}, {"nothing", zero}}};
}

/// A band's end carried back to this step, before it is rounded.
std::string carried(Asking& asking, const Place& place, Reading reading, const std::string& end) {
  const Limits band = band_at(asking.situation, asking.draft, place.move);
  const auto edge = end == "low" ? band.low : band.high;
  const std::string key(key_of(reading));
  const std::string id = fmt::format("{}#carried/{}/{}", place.prefix, key, end);
  const std::string goal = goal_end(asking, reading, end.c_str());
  const std::string here = reading_of(asking, asking.after(place.move), key);
  const std::string final = reading_of(asking, "/final", key);
  if (reading == Reading::ph) {
    return asking.put(id, "band_carried_back", "pH", "carried_back",
                      {{end, goal}, {"here", here}, {"in_the_end", final}}, edge.value_or(0));
  }
  const std::string taken = asking.put(id + "_taken", "taken_later", unit_of_key(key), "difference",
                                       {{"here", here}, {"in_the_end", final}});
  return asking.put(id, "band_carried_back", unit_of_key(key), "sum",
                    {{end, goal}, {"taken_later", taken}}, edge.value_or(0));
}

/// In a turn the jets run until pH is back, to what the test can tell.
std::string about_ph(Asking& asking, const Place& place, const std::string& end) {
  const auto& rounds = std::get<RoundsMove>(asking.draft.at(place.move));
  const Bench& bench = asking.situation.bench;
  const Water before = water_named(asking, asking.before(place.move)).water;
  const Water acid = bench.after(before, Move{rounds.dose});
  const double ph = bench.ph(bench.after(acid, Move{rounds.release}));
  const std::string back =
      asking.put(Node{place.prefix + "#pH",
                      "pH_after_the_jets",
                      0,
                      "pH",
                      "equilibrium",
                      {{"released_to", asking.ask(place.prefix + "/to_log10_pco2_atm")},
                       {"alkalinity_before",
                        reading_of(asking, asking.before(place.move), "total_alkalinity_mg_l")}}},
                 ph);
  const std::string by = retest_row(asking, Reading::ph) != nullptr
                             ? division_node(asking, Reading::ph)
                             : constant(asking, "a tenth of pH", 0.1, "pH",
                                        assumed_by_us("what a good test can tell"));
  return asking.put(place.prefix + "#about_" + end, "about_it", "pH",
                    end == "low" ? "difference" : "sum", {{"pH", back}, {"step", by}});
}

/// The gate is asked for as it is, at bathing temperature.
bool is_gate(const Asking& asking, const Place& place) {
  return std::holds_alternative<Heat>(place.step->what) && place.move + 1 == asking.draft.size();
}

std::string band_end(Asking& asking, const Place& place, Reading reading, const std::string& end) {
  if (is_gate(asking, place)) {
    return asking.ask(fmt::format("/gate/{}/{}", key_of(reading), end));
  }
  const bool is_in_turn = place.prefix != asking.step_of(place.move);
  return is_in_turn ? about_ph(asking, place, end) : carried(asking, place, reading, end);
}

}  // namespace

Node explain_expected(Asking& asking, const Place& place) {
  const DosePlace at = dose_at(asking, place.move);
  const std::size_t pour = std::stoul(place.rest.at(1));
  const Reading reading = *reading_named(place.rest.at(3));
  Expected expected = expected_of(asking, at, pour + 1, reading);
  if (place.parts.back() == "value") return same_as(asking, expected.value);
  return expected_end(asking, place, at, reading, std::move(expected));
}

Node explain_accepted(Asking& asking, const Place& place) {
  const Reading reading = *reading_named(place.rest.at(1));
  const std::string end = place.parts.back();
  const std::string unrounded = band_end(asking, place, reading, end);
  if (agrees(asking.value(unrounded), asking.stated(place))) return same_as(asking, unrounded);
  return {"",
          "",
          0,
          "",
          end == "low" ? "round_up_to" : "round_down_to",
          {{"band", unrounded}, {"division", division_node(asking, reading)}}};
}

Node explain_edge(Asking& asking, const Place& place) {
  const Flat& plan = asking.in_plan();
  const std::size_t cut = place.pointer.rfind('/');
  const std::string key = plan.text(place.pointer.substr(0, cut) + "/reading").value_or("");
  const std::string side =
      place.parts.back() == "above" || place.rest.front() == "until" ? "high" : "low";
  const std::string accepted = fmt::format("{}/accept/{}/{}", place.prefix, key, side);
  if (plan.number(accepted) && *plan.number(accepted) == asking.stated(place)) {
    return same_as(asking, asking.ask(accepted));
  }
  const std::string window = assumption(asking, asking.data.assumptions.pour_ph, "low");
  if (retest_row(asking, Reading::ph) == nullptr) return same_as(asking, window);
  return {"",
          "",
          0,
          "",
          "round_up_to",
          {{"lowest_pH_for_a_pour", window}, {"division", division_node(asking, Reading::ph)}}};
}

Node explain_overshoot(Asking& asking, const Place& place) {
  const DosePlace at = dose_at(asking, place.move);
  const std::string end = lowers(*at.dose) ? "low" : "high";
  const Limits band = band_at(asking.situation, asking.draft, place.move);
  Node node{"", "", 0, "", "chance_beyond", {}};
  Expected expected = expected_of(asking, at, 1, *at.dose->goal);
  node.inputs = std::move(expected.spread.inputs);
  if (end == "low" ? band.low.has_value() : band.high.has_value()) {
    node.inputs.insert(node.inputs.begin() + 1,
                       {"far_edge", carried(asking, place, *at.dose->goal, end)});
  } else {
    node.inputs.insert(
        node.inputs.begin() + 1,
        {"far_edge", constant(asking, "no far edge", 0, "", definition("the band is open there"))});
  }
  return node;
}

Node explain_hours_of_outcome(Asking& asking, const Place& place) {
  const std::string jets = place.prefix + "/jets_hours/low";
  if (asking.in_plan().number(jets)) return same_as(asking, asking.ask(jets));
  if (asking.stated(place) == 1) {
    return same_as(asking, constant(asking, "hours before too much sanitizer is tested again", 1,
                                    "h", remembered("common practice, cover off; no source")));
  }
  const std::string name = fmt::format("{} hours before the next test", asking.stated(place));
  return same_as(asking, constant(asking, name, asking.stated(place), "h",
                                  assumed_by_us("tablets take days")));
}

}  // namespace tub::why
