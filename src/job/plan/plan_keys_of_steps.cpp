// The keys of a plan's steps: one table a kind, with what all kinds share.
#include <array>

#include "job/plan/plan_keys.h"
#include "job/shape/schema_parts.h"

namespace tub::job {
namespace {

using Json = nlohmann::ordered_json;

constexpr std::array<std::string_view, 5> when_names = {"inside", "over", "under", "over_after_all",
                                                        "under_after_all"};
constexpr std::array<std::string_view, 3> action_names = {"skip_rest", "stop_and_call",
                                                          "wait_and_test"};

Json condition_json(const Condition& condition) {
  const bool is_below = condition.side == Condition::Side::below;
  return {{"reading", key_of(condition.reading)}, {is_below ? "below" : "above", condition.edge}};
}

Json condition_schema() {
  return {{"type", "object"},
          {"properties",
           {{"reading", schema::text()}, {"below", schema::number()}, {"above", schema::number()}}},
          {"required", Json::array({"reading"})},
          {"minProperties", 2},
          {"maxProperties", 2},
          {"additionalProperties", false}};
}

RecordFields<Limits> limits_fields() {
  const Json end = schema::or_null(schema::number());
  return {{"low", "", end, [](const Limits& l) { return number_or_null(l.low); }},
          {"high", "", end, [](const Limits& l) { return number_or_null(l.high); }}};
}

RecordFields<Measure> measure_fields() {
  return {{"count", "", schema::number(), [](const Measure& m) { return Json(m.count); }},
          {"unit", "", schema::text(), [](const Measure& m) { return Json(m.unit); }}};
}

template <class Map, class Write>
Json by_reading(const Map& map, Write write) {
  Json object = Json::object();
  for (const auto& [reading, value] : map) object[std::string(key_of(reading))] = write(value);
  return object;
}

template <class T, class Write>
Json list(const std::vector<T>& items, Write write) {
  Json result = Json::array();
  for (const T& item : items) result.push_back(write(item));
  return result;
}

RecordFields<Portion> portion_fields() {
  const Json amount = schema::or_null(schema::number());
  return {{"amount_g", "to pour now", amount,
           [](const Portion& p) { return number_or_null(p.amount_g); }},
          {"amount_ml", "of a liquid", amount,
           [](const Portion& p) { return number_or_null(p.amount_ml); }},
          {"only_if", "pour only if the retest says so", condition_schema(),
           [](const Portion& p) {
             return p.only_if ? std::optional<Json>(condition_json(*p.only_if)) : std::nullopt;
           },
           false},
          {"measure", "the same amount in the owner's measure",
           schema::list_of(schema_of(measure_fields())),
           [](const Portion& p) {
             return list(p.measure, [](const Measure& m) { return written(m, measure_fields()); });
           }},
          {"wait_minutes", "before the retest", schema::number(),
           [](const Portion& p) { return Json(p.wait_minutes); }},
          {"expect", "what the retest should show, in its divisions",
           schema::map_of(schema_of(interval_fields())), [](const Portion& p) {
             return by_reading(p.expect,
                               [](const Interval& i) { return written(i, interval_fields()); });
           }}};
}

RecordFields<TestOutcome> outcome_fields() {
  return {
      {"reading", "a key, or clarity", schema::text(),
       [](const TestOutcome& o) {
         return Json(o.is_clarity ? std::string_view("clarity") : key_of(o.reading));
       }},
      {"when", "what the test shows", schema::one_of_names(when_names),
       [](const TestOutcome& o) { return Json(when_names.at(static_cast<std::size_t>(o.when))); }},
      {"do", "what to do then", schema::one_of_names(action_names),
       [](const TestOutcome& o) {
         return Json(action_names.at(static_cast<std::size_t>(o.action)));
       }},
      {"hours", "of wait_and_test", schema::or_null(schema::number()),
       [](const TestOutcome& o) { return number_or_null(o.hours); }}};
}

// In the order of Step::what.
constexpr std::array<std::string_view, 6> kind_names = {
    "fill", "heat", "add", "release_carbon_dioxide", "repeat", "replace"};

std::string_view kind_name(const Step& step) { return kind_names.at(step.what.index()); }

RecordFields<Step> head_fields(std::string_view kind) {
  return {{"kind", "", schema::constant(kind), [](const Step& s) { return Json(kind_name(s)); }},
          {"number", "of the rung on the card", schema::whole(),
           [](const Step& s) { return Json(s.number); }}};
}

std::optional<Json> test_json(const Step& step) {
  if (step.test_is_clarity) return Json("clarity");
  return step.test ? Json(key_of(*step.test)) : Json(nullptr);
}

RecordFields<Step> test_fields() {
  return {
      {"test", "what to retest: a key, clarity, or null", schema::or_null(schema::text()),
       test_json},
      {"test_too_coarse", "the test at hand cannot tell: have it tested", schema::flag(),
       [](const Step& s) { return Json(s.test_too_coarse); }},
      {"accept", "the target as this step's water should show it",
       schema::map_of(schema_of(limits_fields())),
       [](const Step& s) {
         return by_reading(s.accept, [](const Limits& l) { return written(l, limits_fields()); });
       }},
      {"outcomes", "every value that the test can show",
       schema::list_of(schema_of(outcome_fields())),
       [](const Step& s) {
         return list(s.outcomes, [](const TestOutcome& o) { return written(o, outcome_fields()); });
       }},
      {"notes", "", schema::list_of(reason_schema()),
       [](const Step& s) { return list(s.notes, reason_json); }}};
}

RecordFields<Step> after_field() {
  return {{"after", "the water after the step", schema::reference("water"),
           [](const Step& s) {
             return s.after ? std::optional<Json>(written(*s.after, water_state_fields()))
                            : std::nullopt;
           },
           false}};
}

const Addition& addition(const Step& step) { return std::get<Addition>(step.what); }

RecordFields<Step> addition_fields() {
  return {{"product", "", schema::text(), [](const Step& s) { return Json(addition(s).product); }},
          {"for", "the reading that it is for", schema::or_null(schema::text()),
           [](const Step& s) {
             const auto& reading = addition(s).reading;
             return reading ? Json(key_of(*reading)) : Json(nullptr);
           }},
          {"amount_g", "the sum of the portions", schema::or_null(schema::number()),
           [](const Step& s) { return number_or_null(addition(s).amount_g); }},
          {"amount_ml", "of a liquid", schema::or_null(schema::number()),
           [](const Step& s) { return number_or_null(addition(s).amount_ml); }},
          {"adds_g", "grams of each pure compound, by formula", schema::map_of(schema::number()),
           [](const Step& s) { return Json(addition(s).adds_g); }},
          {"spends", "the demand that it meets, applied right after it",
           schema::map_of(schema::number()),
           [](const Step& s) {
             const auto& spends = addition(s).spends;
             return spends.empty() ? std::nullopt : std::optional<Json>(Json(spends));
           },
           false}};
}

RecordFields<Step> pour_fields() {
  return {{"portions", "one or two pours", schema::list_of(schema_of(portion_fields())),
           [](const Step& s) {
             return list(addition(s).portions,
                         [](const Portion& p) { return written(p, portion_fields()); });
           }},
          {"overshoot_chance", "that the reading passes the far edge of what is accepted",
           schema::or_null(schema::number()),
           [](const Step& s) { return number_or_null(addition(s).overshoot_chance); }}};
}

RecordFields<Step> heat_fields() {
  return {{"to_c", "", schema::number(),
           [](const Step& s) { return Json(std::get<Heat>(s.what).to_c); }}};
}

RecordFields<Step> release_fields() {
  const auto release = [](const Step& s) { return std::get<ReleaseCarbonDioxide>(s.what); };
  return {{"to_log10_pco2_atm", "", schema::number(),
           [=](const Step& s) { return Json(release(s).to_log10_pco2_atm); }},
          {"jets_hours", "how long the jets run", schema_of(interval_fields()),
           [=](const Step& s) { return written(release(s).jets_hours, interval_fields()); }}};
}

RecordFields<Step> repeat_fields() {
  const auto repeat = [](const Step& s) { return std::get<Repeat>(s.what); };
  return {
      {"times", "expected", schema::whole(), [=](const Step& s) { return Json(repeat(s).times); }},
      {"at_most", "", schema::whole(), [=](const Step& s) { return Json(repeat(s).at_most); }},
      {"until", "", condition_schema(),
       [=](const Step& s) { return condition_json(repeat(s).until); }},
      {"steps", "", schema::list_of(schema::reference("step")),
       [=](const Step& s) { return list(repeat(s).steps, step_json); }}};
}

RecordFields<Step> replace_fields() {
  const auto replace = [](const Step& s) { return std::get<Replace>(s.what); };
  return {{"fraction", "of the water", schema::number(),
           [=](const Step& s) { return Json(replace(s).fraction); }},
          {"with", "source_water or second_source", schema::text(),
           [=](const Step& s) { return Json(replace(s).with); }}};
}

RecordFields<Step> own_fields(std::string_view kind) {
  if (kind == "heat") return heat_fields();
  if (kind == "add") return addition_fields();
  if (kind == "release_carbon_dioxide") return release_fields();
  if (kind == "repeat") return repeat_fields();
  if (kind == "replace") return replace_fields();
  return {};
}

}  // namespace

std::span<const std::string_view> step_kinds() { return kind_names; }

RecordFields<Step> step_fields_of_kind(std::string_view kind) {
  RecordFields<Step> fields = joined(head_fields(kind), own_fields(kind));
  fields = joined(std::move(fields), after_field());
  if (kind == "add") fields = joined(std::move(fields), pour_fields());
  return joined(std::move(fields), test_fields());
}

Json step_json(const Step& step) { return written(step, step_fields_of_kind(kind_name(step))); }

}  // namespace tub::job
