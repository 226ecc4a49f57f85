// The numbers of a step that are not amounts: rungs, temperatures, turns, shares, waits, notes.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "why/aims.h"
#include "why/asking.h"
#include "why/equations.h"
#include "why/floater_rules.h"
#include "why/grounds.h"
#include "why/pours.h"
#include "why/rules.h"
#include "why/spreads.h"

namespace tub::why {
namespace {

std::string bathing_temperature(Asking& asking) {
  const std::string own = job_quantity(asking, "/vessel/bathing_temperature",
                                       QuantityKind::temperature, "bathing_temperature");
  if (!own.empty()) return own;
  const Assumed& assumed = asking.data.assumptions.bathing_temperature_c;
  const double degrees = asking.request.tub.bathing_temperature_c;
  if (degrees == assumed.value) return assumption(asking, assumed);
  return asking.put(Node{"job:/vessel/bathing_temperature",
                         "bathing_temperature",
                         0,
                         "°C",
                         "given",
                         {},
                         Origin{Ground::job, "/vessel/bathing_temperature"}},
                    degrees);
}

std::string one_more(Asking& asking) {
  return constant(asking, "one more", 1, "", definition("each step has its own rung"));
}

/// The step of that number; steps of one number say the same.
std::string number_pointer(const Asking& asking, double number) {
  for (std::size_t i = 0; i < asking.plan.steps.size(); ++i) {
    const std::string pointer = fmt::format("/steps/{}/number", i);
    if (asking.in_plan().number(pointer) == number) return pointer;
  }
  return "";
}

/// "later_step_moves_it": by the move whose change of the reading it is.
Node change_by_later_step(Asking& asking, const Place& place, const std::string& key) {
  for (std::size_t move = place.move + 1; move < asking.draft.size(); ++move) {
    const double here = number_of(water_named(asking, asking.before(move)).state, key);
    const double later = number_of(water_named(asking, asking.after(move)).state, key);
    if (!agrees(later - here, asking.stated(place))) continue;
    return {"",
            "",
            0,
            unit_of_key(key),
            "difference",
            {{"after_that_step", reading_of(asking, asking.after(move), key)},
             {"before_it", reading_of(asking, asking.before(move), key)}}};
  }
  return {"",
          "",
          0,
          unit_of_key(key),
          "within_room",
          {{"after_this_step", reading_of(asking, asking.after(place.move), key)}}};
}

Node hours_of_pair(Asking& asking, const std::string& first, const std::string& second) {
  for (std::size_t i = 0; i < asking.plan.hazards.size(); ++i) {
    const HazardPair& pair = asking.plan.hazards[i];
    const bool is_it = (pair.first == first && pair.second == second) ||
                       (pair.first == second && pair.second == first);
    if (!is_it || pair.hours_apart == 0) continue;
    return same_as(asking, asking.ask(fmt::format("/hazards/{}/hours_apart", i)));
  }
  return {"", "", 0, "h", "counted", {}};
}

bool is_floater(const Asking& asking, const Place& place) {
  const auto* dose = std::get_if<DoseMove>(&asking.draft.at(place.move));
  return dose != nullptr && dose->pours->days > 0;
}

/// What stays in the floater, and for how long.
Node of_floater(Asking& asking, const Place& place) {
  const DosePlace at = dose_at(asking, place.move);
  const std::string& name = place.parts.back();
  if (name == "dissolves_g") return same_as(asking, dissolved(asking, at));
  if (name == "tablets") {
    return same_as(asking, asking.ask(at.prefix + "/portions/0/measure/0/count"));
  }
  const std::string day = constant(asking, "hours in a day", 24, "h/d", definition("SI"));
  return {"", "", 0, "", "product", {{"days", days_in_floater(asking, at)}, {"a_day", day}}};
}

std::string note_text(const Asking& asking, const Place& place, const char* name) {
  return asking.in_plan()
      .text(fmt::format("{}/notes/{}/{}", place.prefix, place.rest.at(1), name))
      .value_or("");
}

}  // namespace

Node explain_rung(Asking& asking, const Place& place) {
  const std::size_t last = place.parts.size() - 2;
  const bool is_in_turn =
      place.prefix != asking.step_of(place.move) && last > 1 && place.parts.size() > 3;
  if (is_in_turn) {
    const std::string outer = fmt::format("/steps/{}/number", place.parts.at(1));
    return same_as(asking, asking.ask(outer));
  }
  const std::size_t index = std::stoul(place.parts.at(1));
  if (index == 0 && asking.plan.done.empty()) {
    return same_as(asking, constant(asking, "first rung", asking.stated(place), "",
                                    definition("rungs are counted from 1")));
  }
  const std::string before =
      asking.ask(index > 0 ? fmt::format("/steps/{}/number", index - 1)
                           : fmt::format("/done/{}/number", asking.plan.done.size() - 1));
  if (asking.value(before) == asking.stated(place)) return same_as(asking, before);
  return {"", "", 0, "", "sum", {{"rung_before", before}, {"one_more", one_more(asking)}}};
}

Node explain_temperature(Asking& asking, const Place& place) {
  const std::string bathing = bathing_temperature(asking);
  if (place.move + 1 == asking.draft.size()) return same_as(asking, bathing);
  return {"",
          "",
          0,
          "",
          "smallest",
          {{"for_dosing", assumption(asking, asking.data.assumptions.dosing_temperature_c)},
           {"for_bathing", bathing}}};
}

Node explain_turns(Asking& asking, const Place& place) {
  const DosePlace at = dose_at(asking, place.move);
  const std::string step = asking.step_of(place.move);
  const std::string key(key_of(*at.dose->goal));
  const std::string first = fmt::format("{}/steps/0/after/{}", step, key);
  static_cast<void>(first);
  Node node{"", "", 0, "", "within_room", {}};
  node.inputs.push_back({"aim", goal_end(asking, *at.dose->goal, "high")});
  node.inputs.push_back({"before", reading_of(asking, asking.before(place.move), key)});
  const bool is_liquid = at.dose->supply->product().form == Form::liquid;
  node.inputs.push_back({"acid_of_a_turn", asking.ask(fmt::format("{}/amount_{}", at.prefix,
                                                                  is_liquid ? "ml" : "g"))});
  const Assumed& window = asking.data.assumptions.pour_ph;
  node.inputs.push_back({"lowest_pH", assumption(asking, window, "low")});
  node.inputs.push_back({"limit_of_one_pour", limit_of_pour(asking, at)});
  return node;
}

Node explain_most_turns(Asking& asking, const Place& place) {
  const DosePlace at = dose_at(asking, place.move);
  const std::string step = asking.step_of(place.move);
  const std::string key(key_of(*at.dose->goal));
  const std::string unit = unit_of_key(key);
  const std::string times = asking.ask(step + "/times");
  const std::string before = reading_of(asking, asking.before(place.move), key);
  const std::string after = reading_of(asking, asking.after(place.move), key);
  const auto put = [&](const char* name, const std::string& in, const char* equation,
                       std::vector<Input> inputs) {
    return asking.put(step + "#" + name, name, in, equation, std::move(inputs));
  };
  const std::string fall = put("fall", unit, "difference", {{"before", before}, {"after", after}});
  const std::string each = put("each_turn", unit, "quotient", {{"fall", fall}, {"turns", times}});
  const std::string one = constant(asking, "the whole", 1, "share", definition("a share of it"));
  const std::string largest =
      put("largest_tub", "share", "sum",
          {{"whole", one}, {"volume_error", asking.ask("/vessel/volume_give_or_take")}});
  const std::string least =
      put("least_of_a_turn", unit, "quotient", {{"each_turn", each}, {"largest_tub", largest}});
  const auto moves = std::span<const Move>(asking.draft).first(place.move);
  const SpreadOf spread = spread_of(asking, step + "#before", key, before, moves);
  const std::string high = quantile_node(asking, step + "#before", unit, spread, "high");
  const std::string most_fall =
      put("most_to_fall", unit, "difference", {{"high", high}, {"after", after}});
  const std::string exact = put("turns_needed_unrounded", "", "quotient",
                                {{"most_to_fall", most_fall}, {"least_of_a_turn", least}});
  const std::string whole_turn = constant(asking, "a turn", 1, "", definition("turns are whole"));
  const std::string needed =
      put("turns_needed", "", "round_up_to", {{"unrounded", exact}, {"turn", whole_turn}});
  return {"", "", 0, "", "largest", {{"turns", times}, {"turns_needed", needed}}};
}

/// Shares are tried in steps that can be measured; the best plan has it.
Node explain_fraction(Asking& asking, const Place& place) {
  static_cast<void>(place);
  Node node{"", "", 0, "", "best_of_shares", {}};
  node.inputs.push_back({"step", assumption(asking, asking.data.assumptions.refill_step)});
  for (const auto& [reading, goal] : asking.situation.goals) {
    const std::string key(key_of(reading));
    if (!asking.in_plan().number("/second_source/" + key) || reading == Reading::ph) continue;
    node.inputs.push_back({"here_" + key, reading_of(asking, "/start", key)});
    node.inputs.push_back({"other_" + key, reading_of(asking, "/second_source", key)});
    const bool has_low = goal.band.low.has_value();
    node.inputs.push_back({has_low ? "low_of_" + key : "high_of_" + key,
                           goal_end(asking, reading, has_low ? "low" : "high")});
  }
  return node;
}

Node explain_note(Asking& asking, const Place& place) {
  const std::string& name = place.parts.back();
  if (name == "step" || name == "next_step") {
    const std::string pointer = number_pointer(asking, asking.stated(place));
    if (!pointer.empty() && !asking.has(place.pointer)) {
      return same_as(asking, asking.ask(pointer));
    }
  }
  if (is_floater(asking, place) &&
      (name == "tablets" || name == "hours" || name == "dissolves_g")) {
    return of_floater(asking, place);
  }
  if (floater_at(asking, place) != nullptr && (name == "tablets" || name == "dissolves_g")) {
    return note_of_floater(asking, place);
  }
  if (name == "change") {
    return change_by_later_step(asking, place, note_text(asking, place, "reading"));
  }
  if (name == "hours_apart") {
    return hours_of_pair(asking, note_text(asking, place, "product"),
                         note_text(asking, place, "partner"));
  }
  if (name == "scale_g") {
    return same_as(asking, constant(asking, "fine scale", 0.1, "g",
                                    assumed_by_us("a 0.1 g scale or a 0.1 mL syringe")));
  }
  return {"", "", 0, "", "counted", {}};
}

/// A wait is that of the assumption; longer where a partner of a dangerous pair comes next.
Node explain_wait(Asking& asking, const Place& place) {
  if (is_floater(asking, place)) {
    const std::string day = constant(asking, "minutes in a day", 1440, "min/d", definition("SI"));
    return {"",
            "",
            0,
            "",
            "product",
            {{"days", days_in_floater(asking, dose_at(asking, place.move))}, {"a_day", day}}};
  }
  const std::string base =
      floater_at(asking, place) != nullptr
          ? constant(asking, "no wait", 0, "min", definition("what a floater gives is not tested"))
          : assumption(asking, asking.data.assumptions.wait_minutes);
  if (asking.value(base) == asking.stated(place)) return same_as(asking, base);
  Node node{"", "", 0, "", "waits", {{"wait", base}}};
  for (std::size_t i = 0; i < place.step->notes.size(); ++i) {
    const std::string hours = fmt::format("{}/notes/{}/hours_apart", place.prefix, i);
    if (!asking.in_plan().number(hours)) continue;
    node.inputs.push_back({"hours_apart", asking.ask(hours)});
  }
  return node;
}

}  // namespace tub::why
