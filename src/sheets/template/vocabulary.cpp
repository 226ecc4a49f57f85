// Keys with their placeholders, in tables; the rest follows from rows of data.
#include "sheets/template/vocabulary.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <iterator>
#include <map>
#include <set>
#include <string>
#include <string_view>

#include "base/text.h"

namespace tub::sheets {
namespace {

using Keys = std::map<std::string, std::set<std::string>>;

struct Row {
  std::string_view key;
  std::string_view parameters = "";  // with blanks between
};

constexpr std::array code_rows = {
    Row{"yes"},
    Row{"line"},
    Row{"date", "day month year"},
    Row{"first_of_month"},
    Row{"date_line"},
    Row{"emergency.unknown"},
    Row{"emergency.unknown_short"},
    Row{"emergency.here"},
    Row{"poison_centre.in_statements"},
    Row{"poison_centre.line"},
    Row{"poison_centre.unnamed", "phone"},
    Row{"poison_centre.named", "name phone"},
    Row{"by", "shop"},
    Row{"logo.of_shop", "shop"},
    Row{"logo.unnamed"},
    Row{"by_with_phone", "shop phone"},
    Row{"tub_of", "volume"},
    Row{"volume_facts", "other_volume give_or_take shell"},
    Row{"every_time", "protection temperature"},
    Row{"never_mix.text"},
    Row{"never_mix.text_and_pairs", "pairs"},
    Row{"local_rules.rented"},
    Row{"local_rules.public"},
    Row{"list.and", "first second"},
    Row{"list.comma", "first second"},
    Row{"list.semicolon", "first second"},
    Row{"sentences", "first second"},
    Row{"active.chlorine", "share range"},
    Row{"active.bound_chlorine", "share bound range"},
    Row{"active.bromine", "share range"},
    Row{"hand_over.later", "amount limit product"},
    Row{"hand_over.at_once", "limit product"},
    Row{"hand_over.with_this_card", "limit product"},
    Row{"drift.with_acid", "ph acid"},
    Row{"drift.without_acid", "ph"},
    Row{"assumed_list", "list"},
    Row{"channel.not_tested"},
    Row{"limit.at_most", "n"},
    Row{"limit.at_least", "n"},
    Row{"rung.fill"},
    Row{"rung.fill_and_heat", "temperature"},
    Row{"rung.fill_how"},
    Row{"rung.fill_and_heat_how"},
    Row{"rung.test_again"},
    Row{"rung.test_before"},
    Row{"rung.test_tap"},
    Row{"rung.heat", "temperature"},
    Row{"rung.does", "does"},
    Row{"rung.does_and_note", "does note"},
    Row{"rung.weigh"},
    Row{"rung.too_coarse"},
    Row{"rung.in_rounds", "product"},
    Row{"rung.release"},
    Row{"rung.release_does"},
    Row{"rung.blend", "share volume rest water"},
    Row{"rung.replace", "share volume rest water"},
    Row{"rung.replace_how"},
    Row{"pour.if_under", "n"},
    Row{"pour.if_over", "n"},
    Row{"pour.expect", "range"},
    Row{"pour.look"},
    Row{"pour.have_us_test"},
    Row{"pour.no_test"},
    Row{"pour.target", "range"},
    Row{"pour.target_clear"},
    Row{"pour.until_under", "n"},
    Row{"pour.until_over", "n"},
    Row{"pour.air"},
    Row{"pour.air_takes", "time"},
    Row{"pour.end_of_round"},
    Row{"pour.rounds", "numbers"},
    Row{"found.done", "last"},
    Row{"found.begun", "number"},
    Row{"found.visit", "last"},
    Row{"found.off", "name found number range reason"},
    Row{"outcome.clear"},
    Row{"outcome.cloudy"},
    Row{"outcome.inside", "range"},
    Row{"outcome.over", "n"},
    Row{"outcome.under", "n"},
    Row{"outcome.over_after_both", "n"},
    Row{"outcome.under_after_both", "n"},
    Row{"outcome.of.inside", "name range"},
    Row{"outcome.of.over", "name n"},
    Row{"outcome.of.under", "name n"},
    Row{"outcome.of.not_over", "name n"},
    Row{"outcome.of.not_under", "name n"},
    Row{"outcome.after_rounds", "n"},
    Row{"then.go_on"},
    Row{"then.skip_rest"},
    Row{"then.stop_and_call"},
    Row{"then.wait_and_test", "time"},
    Row{"then.leave_and_test", "time"},
    Row{"then.take_out_and_test", "time"},
    Row{"then.air_and_test", "time"},
    Row{"then.skip_second"},
    Row{"then.another_round", "times most"},
    Row{"own_figures.marked", "name"},
    Row{"own_figures.of", "list"},
    Row{"own_figures.of_gate", "list gates"},
    Row{"authorities.one", "set"},
    Row{"authorities.two", "set gate"},
    Row{"gate_closed.line", "name reached range advice"},
    Row{"gate.title"},
    Row{"gate.title_when_closed"},
    Row{"gate.reading", "name range"},
    Row{"gate.clear"},
    Row{"gate.temperature", "temperature"},
    Row{"gate.title_when_warm", "temperature"},
    Row{"gate.people"},
    Row{"gate.over", "name n time"},
    Row{"gate.otherwise"},
    Row{"does.raise_alkalinity"},
    Row{"does.lower_alkalinity"},
    Row{"does.raise_ph"},
    Row{"does.lower_ph"},
    Row{"does.raise_calcium"},
    Row{"does.sanitize"},
    Row{"does.keep_up_bromine"},
    Row{"does.bromide_bank"},
    Row{"does.wake_bromide"},
    Row{"does.stabilise_chlorine"},
    Row{"does.hold_metals"},
    Row{"does.hold_named_metals", "metals"},
    Row{"remedy.replace", "share water"},
    Row{"remedy.blend", "share water"},
    Row{"remedy.soften", "share water"},
    Row{"remedy.drain_and_refill", "water"},
    Row{"remedy.buy", "product"},
    Row{"remedy.buy_amount", "product amount"},
    Row{"remedy.wait", "time"},
    Row{"remedy.wait_and_test"},
    Row{"remedy.drain"},
    Row{"water.source_water"},
    Row{"water.second_source"},
    Row{"water.softer_water"},
    Row{"water.fresh_water"},
    Row{"ion.sodium"},
    Row{"ion.chloride"},
    Row{"spoon.and", "first second"},
    Row{"spoon.or_weigh", "spoons"},
    Row{"unit.mg_l_name"},
    Row{"unit.mg_l_as_caco3_name"},
    Row{"label_sheet.title", "stock"},
    Row{"alignment_page.title", "stock"},
    Row{"alignment_page.note", "mark from to"},
    Row{"alignment_page.short_note", "mark"},
    Row{"unit.day.one", "n"},
    Row{"unit.day.many", "n"},
};

// What labels say.
constexpr std::array label_rows = {
    Row{"cabinet.place", "vessel sanitizer"},
    Row{"cabinet.place_unnamed", "sanitizer"},
    Row{"cabinet.to_get_in"},
    Row{"cabinet.between", "range"},
    Row{"cabinet.call_us"},
    Row{"cabinet.wait"},
    Row{"cabinet.wait_how"},
    Row{"cabinet.floater_wider"},
    Row{"cabinet.floater_out"},
    Row{"cabinet.test_again"},
    Row{"cabinet.change_water"},
    Row{"cabinet.of_the_water"},
    Row{"cabinet.most"},
    Row{"cabinet.both_high_bold"},
    Row{"cabinet.one_at_a_time", "protection"},
    Row{"cabinet.pairs_apart", "pairs protection"},
    Row{"cabinet.one_at_a_time_short"},
    Row{"cabinet.pairs_apart_short", "pairs"},
    Row{"hazards.column", "name"},
    Row{"hazards.apart"},
    Row{"hazards.no_class"},
    Row{"hazards.say_where", "vessel"},
    Row{"hazards.say_where_line"},
    Row{"hazards.call_for", "products statement"},
    Row{"hazards.see_label"},
    Row{"hazards.spill.oxidiser"},
    Row{"hazards.spill.oxidiser_liquid"},
    Row{"hazards.spill.acid"},
    Row{"hazards.spill.acid_liquid"},
    Row{"hazards.spill.dry"},
    Row{"hazards.spill.liquid"},
    Row{"container.numbers", "ec cas"},
    Row{"container.not_classified"},
    Row{"container.supplier", "name address phone"},
    Row{"container.emergency", "phone"},
    Row{"container.emergency_services", "emergency"},
    Row{"container.blank"},
    Row{"container.lot", "value"},
    Row{"container.made_on", "value"},
    Row{"container.use_by", "value"},
    Row{"container.ufi", "value"},
    Row{"container.authorisation", "value"},
    Row{"container.trade"},
    Row{"container.workplace"},
    Row{"container.check.child_resistant"},
    Row{"container.check.tactile_mark"},
    Row{"container.check.vented_cap"},
    Row{"pictogram.GHS03"},
    Row{"pictogram.GHS05"},
    Row{"pictogram.GHS06"},
    Row{"pictogram.GHS07"},
    Row{"pictogram.GHS08"},
    Row{"pictogram.GHS09"},
    Row{"dose_tag.reads", "reading"},
    Row{"dose_tag.fill"},
    Row{"dose_tag.own_dry_spoon"},
    Row{"dose_tag.own_measure"},
    Row{"dose_tag.label", "reading reads"},
    Row{"dose_tag.fill_label"},
    Row{"dose_tag.once"},
    Row{"dose_tag.once_spoons", "spoons"},
    Row{"dose_tag.danger", "products danger"},
    Row{"dose_tag.never_with", "dangers"},
    Row{"dose_tag.never_with_any"},
    Row{"dose_tag.wear", "protection"},
    Row{"dose_tag.one_of_two", "first second"},
    Row{"dose_tag.other_too", "other"},
    Row{"dose_tag.other_too_short", "other"},
    Row{"dose_tag.once_most", "spoons"},
};

// Ways to keep a tub clean, as jobs name them.
constexpr std::array<std::string_view, 6> sanitizers = {"dichlor",
                                                        "dichlor_then_hypochlorite",
                                                        "sodium_hypochlorite",
                                                        "calcium_hypochlorite",
                                                        "two_step_bromine",
                                                        "bromine_tablets"};

// Reasons of a plan by the group that says them; a parameter that only some plans give is not here.
constexpr std::array reason_rows = {
    Row{"note.later_step_takes", "step amount"},
    Row{"note.later_step_adds", "step amount"},
    Row{"note.too_fine_to_measure", "scale_g"},
    Row{"note.waits_before_next", "product partner hours_apart"},
    Row{"note.floater", "tablets hours dissolves_g"},
    Row{"note.floater_keeps_it_up", "tablets dissolves_g"},
    Row{"note.tablets_keep_it_up", "product"},
    Row{"unmet.no_bromide_on_shelf"},
    Row{"unmet.bromide_takes_the_chlorine", "bromide_as_br2_mg_l"},
    Row{"note.waits_before_this", "product partner hours_apart"},
    Row{"likely.volume", "volume_l low_l high_l"},
    Row{"likely.weak_product", "product share"},
    Row{"likely.carbon_dioxide_lost", "share"},
    Row{"likely.demand", "demand_mg_l"},
    Row{"likely.test_again"},
    Row{"unmet.metals_come_first"},
    Row{"unmet.combined_chlorine_of_the_tap"},
    Row{"unmet.stabiliser_leaves_no_dichlor",
        "cyanuric_acid_mg_l no_more_from_mg_l drain_fraction"},
    Row{"unmet.aim_outside_gate"},
    Row{"caution.stabiliser_not_tested", "most_mg_l no_more_from_mg_l"},
    Row{"caution.other_chlorine_instead", "product cyanuric_acid_mg_l no_more_from_mg_l"},
    Row{"caution.more_than_a_sequestrant_holds", "reading found_mg_l limit_mg_l times"},
    Row{"unmet.no_acid_on_shelf"},
    Row{"unmet.no_base_on_shelf"},
    Row{"unmet.no_alkalinity_product_on_shelf"},
    Row{"unmet.no_calcium_product_on_shelf"},
    Row{"unmet.no_sanitizer_on_shelf"},
    Row{"unmet.no_sequestrant_on_shelf"},
    Row{"unmet.product_harms_shell"},
    Row{"unmet.other_reading_in_the_way"},
    Row{"unmet.ph_leaves_no_room_to_pour"},
    Row{"unmet.pour_would_overshoot"},
    Row{"unmet.sanitizer_too_high", "hours_low hours_high"},
    Row{"unmet.chlorine_makes_too_much_bromine", "hours_low hours_high"},
    Row{"assumed.stop_assumed", "reading value"},
    Row{"assumed.metal_not_tested", "reading"},
    Row{"assumed.calcium_not_tested", "calcium_hardness_mg_l"},
    Row{"assumed.total_chlorine_taken_as_combined", "combined_chlorine_mg_l"},
    Row{"assumed.dissolved_solids_of_the_ions", "estimated_mg_l ions_mg_l"},
    Row{"assumed.dissolved_solids_as_salt", "sodium_chloride_mg_l"},
    Row{"assumed.charge_balance_closed", "ion mg_l"},
    Row{"assumed.volume_give_or_take", "share"},
    Row{"assumed.weaker_by_age", "product days strength_left_share"},
    Row{"assumed.age_not_known", "product"},
    Row{"assumed.volume_judged", "volume_l share"},
    Row{"assumed.strength_judged", "product share"},
    Row{"assumed.carried_over", "reading"},
    Row{"assumed.tablets_replace_what_is_used", "total_bromine_mg_l"},
};

// Rows of assumptions.json that a plan may name; each message takes {value}, its unit included.
constexpr auto assumptions = std::to_array<std::string_view>({
    "source_temperature_c",
    "bathing_temperature_c",
    "dosing_temperature_c",
    "magnesium_share",
    "chloride_mg_l",
    "sulfate_mg_l",
    "dissolved_solids_per_conductivity",
    "fresh_water_demand_mg_l",
    "tap_free_chlorine_mg_l",
    "tap_combined_chlorine_mg_l",
    "chlorine_per_combined",
    "carbon_dioxide_lost_per_wait",
    "refill_half_width",
    "carbon_dioxide_release_per_hour",
    "bromide_bank_mg_l",
    "tablet_dissolves_g_per_day",
    "sanitizer_half_life_h",
});

// Units of numbers; each message takes {n}.
constexpr std::array<std::string_view, 13> units = {
    "oz_on_label", "g",       "kg",         "ml",     "oz",   "us_fluid_ounce", "litre",
    "us_gallon",   "celsius", "fahrenheit", "minute", "hour", "percent"};

// Shells and waters that jobs name, beside the rows of data.
constexpr std::array<std::string_view, 7> shells = {
    "acrylic", "vinyl", "rotomoulded", "fibreglass", "stainless_steel", "timber", "tile"};

// Shells that need a caution of their own.
constexpr std::array<std::string_view, 4> delicate_shells = {"vinyl", "stainless_steel", "timber",
                                                             "tile"};

void require(Keys& keys, const std::string& key, std::string_view parameters = "") {
  std::set<std::string>& known = keys[key];
  for (const std::string& parameter : split(parameters, ' ')) {
    if (!parameter.empty()) known.insert(parameter);
  }
}

void require_fixed(Keys& keys) {
  for (const Row& row : code_rows) require(keys, std::string(row.key), row.parameters);
  for (const Row& row : label_rows) require(keys, std::string(row.key), row.parameters);
  for (const std::string_view kind : sanitizers) require(keys, fmt::format("sanitizer.{}", kind));
  for (const Row& row : reason_rows) require(keys, std::string(row.key), row.parameters);
  for (const std::string_view code : assumptions) {
    require(keys, fmt::format("assumed.{}", code), "value");
  }
  for (const std::string_view unit : units) require(keys, fmt::format("unit.{}", unit), "n");
  for (const std::string_view shell : shells) require(keys, fmt::format("shell.{}", shell));
  for (const std::string_view shell : delicate_shells) {
    require(keys, fmt::format("shell_care.{}", shell));
  }
  require(keys, "reading.total_alkalinity.short");
  require(keys, "reading.free_chlorine.short");
  for (const Reading reading : all_readings) {
    require(keys, fmt::format("reading.{}.name", name_of(reading)));
    require(keys, fmt::format("reading.{}.in_text", name_of(reading)));
    require(keys, fmt::format("unmet.{}_too_high", name_of(reading)));
  }
}

void require_products(Keys& keys, const PlanningData& data) {
  for (const Product& product : data.products) {
    require(keys, fmt::format("product.{}.name", product.id));
    require(keys, fmt::format("product.{}.in_text", product.id));
    require(keys, fmt::format("product.{}.how", product.id));
    require(keys, fmt::format("product.{}.substance", product.id));
    if (!product.danger.empty()) require(keys, "danger." + product.danger);
    for (const std::string& sign : product.protection) {
      require(keys, fmt::format("protection.{}.name", sign));
      require(keys, fmt::format("protection.{}.alt", sign));
      require(keys, fmt::format("protection.{}.too", sign));
      require(keys, fmt::format("protection.{}.alone", sign));
    }
  }
}

void require_spoon(Keys& keys, const std::string& unit) {
  for (const std::string_view form : {"level.one", "level.many", "liquid.one", "liquid.many"}) {
    require(keys, fmt::format("spoon.{}.{}", unit, form), "n");
    require(keys, fmt::format("spoon.{}.label.{}", unit, form), "n");
  }
}

void require_rows(Keys& keys, const PlanningData& data) {
  for (const HazardRule& rule : data.hazard_rules) {
    require(keys, "pair." + rule.code, "first second");
    require(keys, "hazards.pair." + rule.code);
    require(keys, "dose_tag.outcome." + rule.code);
  }
  for (const TargetSet& set : data.target_sets) require(keys, "targets." + set.id);
  for (const MeasureSystem& system : data.measures) {
    for (const Spoon& spoon : system.spoons) require_spoon(keys, spoon.unit);
  }
  require_spoon(keys, "tablet");
}

using Said = std::map<std::string, RequiredMessage>;

// A message of several templates may use the names that are in scope in all of them.
void keep_common(RequiredMessage& kept, const RequiredMessage& other) {
  std::erase_if(kept.parameters, [&](const std::string& name) {
    const auto& offered = other.parameters;
    return std::find(offered.begin(), offered.end(), name) == offered.end();
  });
}

Said said_by(std::span<const SheetTemplate> sheets) {
  Said said;
  for (const SheetTemplate& sheet : sheets) {
    for (RequiredMessage message : sheet.messages) {
      message.said_by = sheet.file;
      const auto [entry, is_first] = said.try_emplace(message.key, message);
      if (!is_first) keep_common(entry->second, message);
    }
  }
  return said;
}

}  // namespace

std::vector<RequiredMessage> required_messages(std::span<const SheetTemplate> sheets,
                                               std::span<const SheetTemplate> replaced,
                                               const PlanningData& data) {
  Keys keys;
  require_fixed(keys);
  require_products(keys, data);
  require_rows(keys, data);
  Said all;
  for (const auto& [key, names] : keys) {
    all.try_emplace(key, RequiredMessage{key, {names.begin(), names.end()}, "", true});
  }
  all.merge(said_by(sheets));
  Said no_longer = said_by(replaced);
  for (auto& [key, message] : no_longer) message.is_needed = false;
  all.merge(no_longer);
  std::vector<RequiredMessage> required;
  required.reserve(all.size());
  for (auto& [key, message] : all) required.push_back(std::move(message));
  return required;
}

}  // namespace tub::sheets
