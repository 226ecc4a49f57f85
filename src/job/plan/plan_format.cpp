#include "job/plan/plan_format.h"

#include "job/plan/plan_keys.h"
#include "job/shape/json_text.h"
#include "job/shape/schema_parts.h"
#include "planning/steps/gate.h"

namespace tub::job {
namespace {

using Json = nlohmann::ordered_json;

RecordFields<Target> target_fields() {
  const Json edge = schema::or_null(schema::number());
  return {{"low", "kept between uses", edge, [](const Target& t) { return number_or_null(t.low); }},
          {"ideal", "", edge, [](const Target& t) { return number_or_null(t.ideal); }},
          {"high", "", edge, [](const Target& t) { return number_or_null(t.high); }},
          {"bathe_low", "below it, do not bathe", edge,
           [](const Target& t) { return number_or_null(t.bathe_low); }},
          {"stop", "above it, do not bathe", edge,
           [](const Target& t) { return number_or_null(t.stop); }}};
}

RecordFields<Range> range_fields() {
  return {{"low", "", schema::number(), [](const Range& r) { return Json(r.low); }},
          {"high", "", schema::number(), [](const Range& r) { return Json(r.high); }}};
}

RecordFields<TargetSet> target_set_fields() {
  return {
      {"set", "", schema::text(), [](const TargetSet& s) { return Json(s.id); }},
      {"own", "readings of which the job gives figures of its own", schema::list_of(schema::text()),
       [](const TargetSet& s) {
         Json keys = Json::array();
         for (const Reading reading : own_figures(s)) keys.push_back(key_of(reading));
         return keys;
       }},
      {"readings", "null where the set is silent",
       schema::map_of(schema::or_null(schema_of(target_fields()))), [](const TargetSet& s) {
         Json object = Json::object();
         for (const Reading reading : all_readings) {
           const auto found = s.readings.find(reading);
           object[std::string(key_of(reading))] =
               found == s.readings.end() ? Json() : written(found->second, target_fields());
         }
         return object;
       }}};
}

RecordFields<Plan> vessel_fields() {
  return {{"volume_l", "of water at bathing temperature", schema::number(),
           [](const Plan& p) { return Json(p.volume_l); }},
          {"volume_give_or_take", "90 % half-width, as a share", schema::number(),
           [](const Plan& p) { return Json(p.volume_give_or_take); }},
          {"use", "private, rented or public", schema::text(),
           [](const Plan& p) { return Json(p.use); }}};
}

RecordFields<Remedy> remedy_fields() {
  const auto named = [](const std::string& text) {
    return text.empty() ? std::nullopt : std::optional<Json>(text);
  };
  const auto known = [](const std::optional<double>& value) {
    return value ? std::optional<Json>(*value) : std::nullopt;
  };
  return {
      {"kind", "replace, drain, blend, soften, buy or wait", schema::text(),
       [](const Remedy& r) { return Json(r.kind); }},
      {"fraction", "of the water", schema::number(),
       [=](const Remedy& r) { return known(r.fraction); }, false},
      {"with", "softer_water, source_water or second_source", schema::text(),
       [=](const Remedy& r) { return named(r.with); }, false},
      {"product", "to buy", schema::text(), [=](const Remedy& r) { return named(r.product); },
       false},
      {"amount_g", "", schema::number(), [=](const Remedy& r) { return known(r.amount_g); }, false},
      {"amount_ml", "of a liquid, in place of the grams", schema::number(),
       [=](const Remedy& r) { return known(r.amount_ml); }, false},
      {"hours", "", schema::number(), [=](const Remedy& r) { return known(r.hours); }, false}};
}

Json parameter_json(const Reason::Parameter& parameter) {
  return std::visit([](const auto& value) { return Json(value); }, parameter);
}

RecordFields<Unmet> unmet_fields() {
  const Json edge = schema::or_null(schema::number());
  return {{"reading", "", schema::text(), [](const Unmet& u) { return Json(key_of(u.reading)); }},
          {"low", "of its target", edge, [](const Unmet& u) { return number_or_null(u.low); }},
          {"high", "", edge, [](const Unmet& u) { return number_or_null(u.high); }},
          {"reached", "", schema::number(), [](const Unmet& u) { return Json(u.reached); }},
          {"code", "why", schema::text(), [](const Unmet& u) { return Json(u.reason.code); }},
          {"parameters",
           "of the code",
           {{"type", "object"}},
           [](const Unmet& u) -> std::optional<Json> {
             if (u.reason.parameters.empty()) return std::nullopt;
             Json object = Json::object();
             for (const auto& [name, value] : u.reason.parameters) {
               object[name] = parameter_json(value);
             }
             return object;
           },
           false},
          {"remedy", "what would mend it", schema::or_null(schema_of(remedy_fields())),
           [](const Unmet& u) {
             return u.remedy ? written(*u.remedy, remedy_fields()) : Json(nullptr);
           }},
          {"closes_gate", "nobody may bathe while it is so", schema::flag(),
           [](const Unmet& u) { return Json(u.closes_gate); }}};
}

RecordFields<HazardPair> hazard_fields() {
  return {
      {"pair", "two products of the shelf", schema::list_of(schema::text()),
       [](const HazardPair& h) {
         return Json::array({h.first, h.second});
       }},
      {"code", "what happens", schema::text(), [](const HazardPair& h) { return Json(h.code); }},
      {"severity", "deadly, harmful or spoils", schema::text(),
       [](const HazardPair& h) { return Json(h.severity); }},
      {"hours_apart", "in the tub", schema::number(),
       [](const HazardPair& h) { return Json(h.hours_apart); }}};
}

RecordFields<Citation> citation_fields() {
  return {{"id", "what it backs", schema::text(), [](const Citation& c) { return Json(c.id); }},
          {"text", "", schema::text(), [](const Citation& c) { return Json(c.text); }},
          {"from_memory", "not read in a stored text", schema::flag(),
           [](const Citation& c) { return Json(c.from_memory); }}};
}

RecordFields<Drift> drift_fields() {
  return {{"ph_half_way", "half of the surplus carbon dioxide gone", schema::number(),
           [](const Drift& d) { return Json(d.ph_half_way); }},
          {"ph_at_air", "all of it gone", schema::number(),
           [](const Drift& d) { return Json(d.ph_at_air); }},
          {"saturation_index_at_air", "", schema::number(),
           [](const Drift& d) { return Json(d.saturation_index_at_air); }},
          {"acid", "of the shelf, that answers it; null where there is none",
           schema::or_null(schema::text()),
           [](const Drift& d) { return d.acid.empty() ? Json(nullptr) : Json(d.acid); }}};
}

using OptionalInterval = std::optional<Interval> ActiveSanitizer::*;

RecordField<ActiveSanitizer> part_field(const char* name, const char* about,
                                        OptionalInterval member) {
  const auto write = [=](const ActiveSanitizer& active) -> std::optional<Json> {
    if (!(active.*member)) return std::nullopt;
    return written(*(active.*member), interval_fields());
  };
  return {name, about, schema_of(interval_fields()), write, false};
}

RecordFields<ActiveSanitizer> active_sanitizer_fields() {
  return {{"of", "the reading that these are parts of", schema::text(),
           [](const ActiveSanitizer& a) { return Json(key_of(a.of)); }},
          part_field("hocl_mg_l", "hypochlorous acid, as Cl2", &ActiveSanitizer::hocl_mg_l),
          part_field("ocl_mg_l", "hypochlorite ion, as Cl2", &ActiveSanitizer::ocl_mg_l),
          part_field("bound_chlorine_mg_l", "held by cyanurate, as Cl2",
                     &ActiveSanitizer::bound_chlorine_mg_l),
          part_field("hobr_mg_l", "hypobromous acid, as Br2", &ActiveSanitizer::hobr_mg_l),
          {"share", "of the reading that kills germs at once", schema_of(interval_fields()),
           [](const ActiveSanitizer& a) { return written(a.share, interval_fields()); }}};
}

RecordFields<HandOver> hand_over_fields() {
  return {{"to", "the product that takes over", schema::text(),
           [](const HandOver& h) { return Json(h.to); }},
          {"cyanuric_acid_mg_l", "at which it takes over", schema::number(),
           [](const HandOver& h) { return Json(h.cyanuric_acid_mg_l); }},
          {"dichlor_g", "in all, from this water on, until it is reached", schema::number(),
           [](const HandOver& h) { return Json(h.dichlor_g); }}};
}

template <class T>
Json list(const std::vector<T>& items, const RecordFields<T>& fields) {
  Json result = Json::array();
  for (const T& item : items) result.push_back(written(item, fields));
  return result;
}

template <class Map, class Name>
Json ranges(const Map& map, Name name) {
  Json object = Json::object();
  for (const auto& [key, range] : map)
    object[std::string(name(key))] = written(range, range_fields());
  return object;
}

Json reasons_json(const std::vector<Reason>& reasons) {
  Json result = Json::array();
  for (const Reason& reason : reasons) result.push_back(reason_json(reason));
  return result;
}

RecordFields<Plan> head_fields() {
  return {
      {"tubwright_plan",
       "the version of this format",
       {{"const", 1}},
       [](const Plan&) { return Json(1); }},
      {"fingerprint", "of the job, in Crockford base 32", schema::text(),
       [](const Plan& p) { return Json(p.fingerprint); }},
      {"vessel", "", schema_of(vessel_fields()),
       [](const Plan& p) { return written(p, vessel_fields()); }},
      {"sanitizer", "", schema::text(), [](const Plan& p) { return Json(p.sanitizer); }},
      {"mineral_cartridge", "", schema::flag(),
       [](const Plan& p) { return Json(p.mineral_cartridge); }},
      {"targets", "the set as followed", schema_of(target_set_fields()),
       [](const Plan& p) { return written(p.targets, target_set_fields()); }},
      {"gate", "the one gate for bathing", schema::map_of(schema_of(range_fields())),
       [](const Plan& p) { return ranges(p.gate, key_of); }},
      {"gate_sources", "the sanitizer's first; that of pH, where it is another",
       schema::list_of(schema::text()), [](const Plan& p) { return Json(p.gate_sources); }},
      {"gate_closed", "what keeps people out after this plan, worst first; null where it opens",
       schema::or_null(reason_schema()),
       [](const Plan& p) { return p.gate_closed ? reason_json(*p.gate_closed) : Json(nullptr); }},
      {"cautions", "to know or to do before anything is poured", schema::list_of(reason_schema()),
       [](const Plan& p) { return reasons_json(p.cautions); }},
      {"retest_with", "the test at the tub", schema::text(),
       [](const Plan& p) { return Json(p.retest_with); }},
  };
}

RecordFields<Plan> water_fields() {
  return {{"start", "every key, what was assumed included", schema::reference("water"),
           [](const Plan& p) { return written(p.start, water_state_fields()); }},
          {"second_source", "", schema::reference("water"),
           [](const Plan& p) {
             return p.second_source
                        ? std::optional<Json>(written(*p.second_source, water_state_fields()))
                        : std::nullopt;
           },
           false},
          {"measured", "keys of start that a test gave", schema::list_of(schema::text()),
           [](const Plan& p) { return Json(p.measured); }},
          {"held", "metals that a sequestrant keeps dissolved", schema::map_of(schema::number()),
           [](const Plan& p) {
             Json object = Json::object();
             for (const auto& [reading, value] : p.held)
               object[std::string(key_of(reading))] = value;
             return object;
           }}};
}

Json optional_json(const std::optional<int>& value) { return value ? Json(*value) : Json(nullptr); }

RecordFields<Interval> interval_fields() {
  return {{"low", "", schema::number(), [](const Interval& i) { return Json(i.low); }},
          {"value", "", schema::number(), [](const Interval& i) { return Json(i.value); }},
          {"high", "", schema::number(), [](const Interval& i) { return Json(i.high); }}};
}

RecordFields<FoundReading> found_fields() {
  const Json count = schema::or_null(schema::whole());
  return {{"after_step", "null at a later visit", count,
           [](const FoundReading& f) { return optional_json(f.after_step); }},
          {"after_pour", "null: the last", count,
           [](const FoundReading& f) { return optional_json(f.after_pour); }},
          {"after_round", "null: the last", count,
           [](const FoundReading& f) { return optional_json(f.after_round); }},
          {"date", "as the job gives it", schema::or_null(schema::text()),
           [](const FoundReading& f) { return f.date.empty() ? Json(nullptr) : Json(f.date); }},
          {"reading", "", schema::text(),
           [](const FoundReading& f) { return Json(key_of(f.reading)); }},
          {"found", "", schema::number(), [](const FoundReading& f) { return Json(f.found); }},
          {"tested_with", "", schema::text(),
           [](const FoundReading& f) { return Json(f.tested_with); }},
          {"expected", "90 %, the test's own error included; null: not foretold",
           schema::or_null(schema_of(interval_fields())),
           [](const FoundReading& f) {
             return f.expected ? written(*f.expected, interval_fields()) : Json(nullptr);
           }},
          {"deviations", "standard deviations from what was expected",
           schema::or_null(schema::number()),
           [](const FoundReading& f) { return number_or_null(f.deviations); }},
          {"likely", "the likeliest reason, where they are more than two",
           schema::or_null(reason_schema()), [](const FoundReading& f) {
             return f.likely ? reason_json(*f.likely) : Json(nullptr);
           }}};
}

Json steps_json(const std::vector<Step>& steps) {
  Json result = Json::array();
  for (const Step& step : steps) result.push_back(step_json(step));
  return result;
}

/// Of a plan that was made again after retests.
RecordFields<Plan> retest_fields() {
  return {{"done", "the steps before, as they were done; only where the job has readings",
           schema::list_of(schema::reference("step")),
           [](const Plan& p) {
             return p.found.empty() ? std::nullopt : std::optional<Json>(steps_json(p.done));
           },
           false},
          {"readings", "what was found, in order; only where the job has readings",
           schema::list_of(schema_of(found_fields())),
           [](const Plan& p) {
             return p.found.empty() ? std::nullopt
                                    : std::optional<Json>(list(p.found, found_fields()));
           },
           false}};
}

RecordFields<Plan> answer_fields() {
  return {
      {"steps", "", schema::list_of(schema::reference("step")),
       [](const Plan& p) { return steps_json(p.steps); }},
      {"final", "after the last step", schema::reference("water"),
       [](const Plan& p) { return written(p.final, water_state_fields()); }},
      {"final_range", "90 %, by key", schema::map_of(schema_of(range_fields())),
       [](const Plan& p) {
         return ranges(p.final_range, [](const std::string& key) { return key; });
       }},
      {"active_sanitizer", "what of the final water's sanitizer kills germs at once; 90 %",
       schema::or_null(schema_of(active_sanitizer_fields())),
       [](const Plan& p) {
         return p.active_sanitizer ? written(*p.active_sanitizer, active_sanitizer_fields())
                                   : Json(nullptr);
       }},
      {"hand_over", "dichlor_then_hypochlorite: when dichlor has laid in enough stabiliser",
       schema_of(hand_over_fields()),
       [](const Plan& p) -> std::optional<Json> {
         if (!p.hand_over) return std::nullopt;
         return written(*p.hand_over, hand_over_fields());
       },
       false},
      {"drift", "what pH does as carbon dioxide leaves", schema_of(drift_fields()),
       [](const Plan& p) { return written(p.drift, drift_fields()); }},
      {"unmet", "targets that this shelf cannot reach", schema::list_of(schema_of(unmet_fields())),
       [](const Plan& p) { return list(p.unmet, unmet_fields()); }},
      {"hazards", "what must never meet", schema::list_of(schema_of(hazard_fields())),
       [](const Plan& p) { return list(p.hazards, hazard_fields()); }},
      {"assumed", "", schema::list_of(reason_schema()),
       [](const Plan& p) { return reasons_json(p.assumed); }},
      {"sources", "where the figures are from", schema::list_of(schema_of(citation_fields())),
       [](const Plan& p) { return list(p.sources, citation_fields()); }}};
}

}  // namespace

Json number_or_null(const std::optional<double>& value) {
  return value ? Json(*value) : Json(nullptr);
}

RecordFields<Interval> interval_fields() {
  return {{"low", "", schema::number(), [](const Interval& i) { return Json(i.low); }},
          {"value", "", schema::number(), [](const Interval& i) { return Json(i.value); }},
          {"high", "", schema::number(), [](const Interval& i) { return Json(i.high); }}};
}

RecordFields<WaterState> water_state_fields() {
  RecordFields<WaterState> fields;
  const auto add = [&](const auto& key) {
    const auto member = key.member;
    fields.push_back({std::string(key.name), std::string(key.meaning),
                      schema::or_null(schema::number()),
                      [=](const WaterState& state) { return Json(state.*member); }});
  };
  for (const auto& key : reading_keys) add(key);
  for (const auto& key : derived_keys) add(key);
  return fields;
}

Json reason_json(const Reason& reason) {
  Json object = {{"code", reason.code}};
  for (const auto& [name, value] : reason.parameters) object[name] = parameter_json(value);
  return object;
}

Json reason_schema() {
  return {{"type", "object"},
          {"properties", {{"code", schema::text()}}},
          {"required", Json::array({"code"})},
          {"additionalProperties", {{"type", Json::array({"number", "string"})}}}};
}

RecordFields<Plan> plan_fields() {
  return joined(joined(joined(head_fields(), water_fields()), retest_fields()), answer_fields());
}

std::string plan_json(const Plan& plan) { return to_text(written(plan, plan_fields())); }

std::string plan_schema() {
  Json schema = schema::head("tubwright plan", "What `tubwright plan --json` prints.");
  schema.update(schema_of(plan_fields()));
  Json kinds = Json::array();
  for (const std::string_view kind : step_kinds()) {
    kinds.push_back(schema_of(step_fields_of_kind(kind)));
  }
  schema["$defs"] = {{"step", {{"oneOf", std::move(kinds)}}},
                     {"water", schema_of(water_state_fields())}};
  return to_text(schema);
}

}  // namespace tub::job
