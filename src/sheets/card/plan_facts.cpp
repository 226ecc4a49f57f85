// From the whole plan to its facts: heading, cautions, unmet targets, foot.
#include "sheets/card/plan_facts.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <string>
#include <utility>

#include "planning/steps/gate.h"
#include "sheets/card/addition_facts.h"
#include "sheets/card/channel_facts.h"
#include "sheets/card/found_facts.h"
#include "sheets/card/plan_shape.h"
#include "sheets/card/rung_facts.h"
#include "sheets/card/sanitizer_facts.h"
#include "sheets/template/wording.h"

namespace tub::sheets {
namespace {

bool is_digit(char character) { return character >= '0' && character <= '9'; }

// A house's number stays with its street: no line ends behind it.
std::string address_kept_together(std::string text) {
  const std::string no_break_space = "\u00A0";
  for (std::size_t end = 1; end < text.size(); ++end) {
    if (text[end] != ' ' || !is_digit(text[end - 1])) continue;
    std::size_t begin = end - 1;
    while (begin > 0 && is_digit(text[begin - 1])) --begin;
    const bool is_house = begin == 0 || (begin > 1 && text.compare(begin - 2, 2, ", ") == 0);
    if (is_house) text.replace(end, 1, no_break_space);
  }
  return text;
}

Words poison_centre_words(const Wording& wording) {
  const Heading& heading = wording.sources().heading;
  const Messages& messages = wording.messages();
  const std::string phone = unbroken(heading.poison_centre_phone);
  if (phone.empty()) return messages.words("poison_centre.line");
  if (heading.poison_centre_name.empty()) {
    return messages.words("poison_centre.unnamed", {{"phone", phone}});
  }
  return messages.words("poison_centre.named",
                        {{"name", typeset(heading.poison_centre_name)}, {"phone", phone}});
}

// Whom to call when something has gone wrong.
void set_help(Facts& facts, const Wording& wording) {
  const std::optional<Country>& country = wording.sources().heading.country;
  facts.set("emergency", wording.emergency());
  facts.set("emergency_figure", country ? plain(country->emergency)
                                        : wording.messages().words("emergency.unknown_short"));
  if (!country) facts.set("emergency_line", wording.messages().words("emergency.here"));
  facts.set("poison_centre", poison_centre_words(wording));
}

void set_people(Facts& facts, const Wording& wording) {
  const Heading& heading = wording.sources().heading;
  const Messages& messages = wording.messages();
  const std::string phone = unbroken(heading.shop_phone);
  facts.set("vessel", address_kept_together(typeset(heading.vessel_name)));
  facts.set("prepared_for", typeset(heading.prepared_for));
  facts.set("shop", typeset(heading.shop_name));
  if (heading.logo) {
    facts.set("logo", heading.shop_name.empty()
                          ? messages.words("logo.unnamed")
                          : messages.words("logo.of_shop", {{"shop", typeset(heading.shop_name)}}));
  }
  facts.set("address", typeset(heading.shop_address));
  facts.set("phone", phone);
  facts.set("phone_or_line", phone.empty() ? messages.words("line") : plain(phone));
  facts.set("date_or_line",
            heading.date ? plain(messages.date(*heading.date)) : messages.words("date_line"));
  if (heading.shop_name.empty()) return;
  const std::string shop = typeset(heading.shop_name);
  facts.set("prepared_by",
            phone.empty() ? messages.words("by", {{"shop", shop}})
                          : messages.words("by_with_phone", {{"shop", shop}, {"phone", phone}}));
}

void set_vessel(Facts& facts, const Wording& wording) {
  const Plan& plan = wording.plan();
  const Messages& messages = wording.messages();
  const std::string volume = wording.volume(plan.volume_l);
  facts.set("volume", volume);
  facts.set("vessel_or_tub", facts.is_present("vessel")
                                 ? facts.words("vessel")
                                 : messages.words("tub_of", {{"volume", volume}}));
  const std::string other = wording.other_volume(plan.volume_l);
  const std::string spread = wording.percent(plan.volume_give_or_take);
  const std::string shell = messages.text("shell." + wording.sources().heading.shell);
  facts.set("volume_facts",
            messages.words("volume_facts",
                           {{"other_volume", other}, {"give_or_take", spread}, {"shell", shell}}));
  if (plan.use != "private")
    facts.set("local_rules_first", messages.words("local_rules." + plan.use));
}

// The water that is poured into is at least this warm: as assumed; else, in a tub that is bathed in
// colder, as it is heated to.
double dosing_temperature_c(const Plan& plan) {
  for (const Reason& reason : plan.assumed) {
    if (reason.code != "dosing_temperature_c") continue;
    for (const auto& [name, value] : reason.parameters) {
      if (name == "value") return std::get<double>(value);
    }
  }
  for (const Step& step : plan.steps) {
    if (const auto* const heat = std::get_if<Heat>(&step.what)) return heat->to_c;
  }
  return plan.final.temperature_c;
}

Words joined(const Messages& messages, std::string_view key, const Words& first, Words second) {
  if (first.empty()) return second;
  return messages.words(key, {{"first", first}, {"second", std::move(second)}});
}

// What this shell does not bear; nothing for shells that bear what the cautions allow anyway.
std::string shell_care(const Wording& wording) {
  const std::string key = "shell_care." + wording.sources().heading.shell;
  return wording.messages().has(key) ? wording.messages().text(key) : "";
}

void set_cautions(Facts& facts, const Wording& wording) {
  const Messages& messages = wording.messages();
  const std::vector<std::string> protection = common_protection(wording);
  facts.set("signs", sign_facts(wording, protection));
  std::string list;
  for (const std::string& name : protection) {
    const std::string word = messages.text("protection." + name + ".name");
    list = list.empty() ? word : messages.text("list.comma", {{"first", list}, {"second", word}});
  }
  facts.set("protection", list);
  const std::string warm = wording.temperature(dosing_temperature_c(wording.plan()));
  Words every_time = messages.words("every_time", {{"protection", list}, {"temperature", warm}});
  if (const std::string care = shell_care(wording); !care.empty()) {
    every_time = joined(messages, "sentences", every_time, plain(care));
  }
  facts.set("every_time", std::move(every_time));
}

// The worst pairs of this shelf: one for each way in which two products can kill.
Words worst_pairs(const Wording& wording) {
  Words pairs;
  std::vector<std::string> named;
  for (const HazardPair& pair : wording.plan().hazards) {
    if (pair.severity != "deadly") continue;
    if (std::find(named.begin(), named.end(), pair.code) != named.end()) continue;
    named.push_back(pair.code);
    const std::string first = wording.product_in_text(pair.first);
    const std::string second = wording.product_in_text(pair.second);
    pairs = joined(
        wording.messages(), "list.semicolon", pairs,
        wording.messages().words("pair." + pair.code, {{"first", first}, {"second", second}}));
  }
  return pairs;
}

Words never_mix(const Wording& wording) {
  const Words pairs = worst_pairs(wording);
  if (pairs.empty()) return wording.messages().words("never_mix.text");
  return wording.messages().words("never_mix.text_and_pairs", {{"pairs", pairs}});
}

// Amounts to buy are rounded up to what a shop weighs or pours out: grams or millilitres.
double rounded_up(double amount) {
  constexpr double small = 100;
  const double step = amount < small ? 10 : 50;
  return std::ceil(amount / step) * step;
}

Words buying_words(const Wording& wording, const Remedy& remedy) {
  const std::string product = wording.product_in_text(remedy.product);
  std::string amount;
  if (remedy.amount_g) amount = wording.grams(rounded_up(*remedy.amount_g));
  if (remedy.amount_ml) amount = wording.millilitres(rounded_up(*remedy.amount_ml));
  if (amount.empty()) return wording.messages().words("remedy.buy", {{"product", product}});
  return wording.messages().words("remedy.buy_amount", {{"product", product}, {"amount", amount}});
}

Words draining_words(const Wording& wording, const Remedy& remedy) {
  const Messages& messages = wording.messages();
  if (remedy.with.empty()) return messages.words("remedy.drain");
  return messages.words("remedy.drain_and_refill",
                        {{"water", messages.text("water." + remedy.with)}});
}

Words remedy_words(const Wording& wording, const Remedy& remedy) {
  const Messages& messages = wording.messages();
  if (remedy.kind == "drain") return draining_words(wording, remedy);
  if (remedy.kind == "buy") return buying_words(wording, remedy);
  if (remedy.kind == "wait") {
    if (!remedy.hours) return messages.words("remedy.wait_and_test");
    return messages.words("remedy.wait", {{"time", wording.about(*remedy.hours)}});
  }
  return messages.words("remedy." + remedy.kind,
                        {{"share", wording.rounded_percent(remedy.fraction.value_or(0))},
                         {"water", messages.text("water." + remedy.with)}});
}

// Why it stays out, and what would mend it.
Words advice_words(const Wording& wording, const Unmet& unmet) {
  const Words why = wording.reason(unmet.reason, "unmet");
  if (!unmet.remedy) return why;
  return joined(wording.messages(), "sentences", why, remedy_words(wording, *unmet.remedy));
}

// What keeps people out, worst first; empty: nothing.
Words gate_closed_words(const Wording& wording) {
  const Plan& plan = wording.plan();
  Words all;
  for (const Unmet& unmet : plan.unmet) {
    if (!unmet.closes_gate) continue;
    const auto gate = plan.gate.find(unmet.reading);
    const Limits range = gate == plan.gate.end() ? Limits{unmet.low, unmet.high}
                                                 : Limits{gate->second.low, gate->second.high};
    Words said = wording.messages().words("gate_closed.line",
                                          {{"name", wording.reading_name(unmet.reading)},
                                           {"reached", wording.value(unmet.reading, unmet.reached)},
                                           {"range", wording.limits(unmet.reading, range)},
                                           {"advice", advice_words(wording, unmet)}});
    all = joined(wording.messages(), "sentences", all, std::move(said));
  }
  return all;
}

std::vector<Facts> caution_facts(const Wording& wording) {
  std::vector<Facts> rows;
  for (const Reason& caution : wording.plan().cautions) {
    Facts facts(text_list);
    facts.set("text", wording.reason(caution, "caution"));
    rows.push_back(std::move(facts));
  }
  return rows;
}

// What closes the gate stands above everything else, and is not said twice.
std::vector<Facts> unmet_facts(const Wording& wording) {
  std::vector<Facts> rows;
  for (const Unmet& unmet : wording.plan().unmet) {
    if (unmet.closes_gate) continue;
    Facts facts(unmet_shape());
    facts.set("name", wording.reading_name(unmet.reading));
    facts.set("reached", wording.value(unmet.reading, unmet.reached));
    facts.set("target", wording.limits(unmet.reading, {unmet.low, unmet.high}));
    facts.set("advice", advice_words(wording, unmet));
    rows.push_back(std::move(facts));
  }
  return rows;
}

// What pH does by itself, said where it leaves its band.
Words drift_words(const Wording& wording) {
  const Plan& plan = wording.plan();
  const auto target = plan.targets.readings.find(Reading::ph);
  const bool has_band = target != plan.targets.readings.end() && target->second.high;
  if (!has_band || plan.drift.ph_at_air <= *target->second.high) return {};
  const std::string ph = wording.value(Reading::ph, plan.drift.ph_at_air);
  const std::string& acid = plan.drift.acid;
  if (acid.empty()) return wording.messages().words("drift.without_acid", {{"ph", ph}});
  return wording.messages().words("drift.with_acid",
                                  {{"ph", ph}, {"acid", wording.product_in_text(acid)}});
}

// How the sanitizer works, and what pH does by itself, in one paragraph.
Words outlook_words(const Wording& wording) {
  const Words active = active_sanitizer_words(wording);
  const Words drift = drift_words(wording);
  if (drift.empty()) return active;
  return joined(wording.messages(), "sentences", active, drift);
}

Words assumed_words(const Wording& wording) {
  Words all;
  for (const Reason& reason : wording.plan().assumed) {
    all = joined(wording.messages(), "list.semicolon", all, wording.reason(reason, "assumed"));
  }
  return all.empty() ? all : wording.messages().words("assumed_list", {{"list", all}});
}

// "7K4Q-M2": four characters, then the rest.
std::string printed_fingerprint(const std::string& fingerprint) {
  constexpr std::size_t group = 4;
  if (fingerprint.size() <= group) return fingerprint;
  return fingerprint.substr(0, group) + "-" + fingerprint.substr(group);
}

// A source by its name alone: what stands before its first comma, colon or semicolon.
std::string short_source(const std::string& source) {
  return source.substr(0, source.find_first_of(",;:"));
}

// Every source, each as short as it can be named.
std::string short_sources(const std::vector<std::string>& sources) {
  std::string names;
  for (const std::string& source : sources) {
    names += (names.empty() ? "" : ", ") + short_source(source);
  }
  return names;
}

Words reading_list(const Wording& wording, const std::vector<Reading>& readings) {
  Words list;
  for (const Reading reading : readings) {
    list = joined(wording.messages(), "list.comma", list, plain(wording.reading_in_text(reading)));
  }
  return list;
}

// Of which readings the figures are the job's own; empty: of none.
Words own_figures_words(const Wording& wording) {
  const Plan& plan = wording.plan();
  const std::vector<Reading> own = own_figures(plan.targets);
  const std::vector<Reading> gates = own_gates(plan.targets, plan.gate);
  if (own.empty()) return {};
  Words list = reading_list(wording, own);
  if (gates.empty()) return wording.messages().words("own_figures.of", {{"list", std::move(list)}});
  return wording.messages().words(
      "own_figures.of_gate", {{"list", std::move(list)}, {"gates", reading_list(wording, gates)}});
}

// The set, marked where some figures are the job's own; then who asks for the gate, if another.
void set_authorities(Facts& facts, const Wording& wording) {
  const Plan& plan = wording.plan();
  const Messages& messages = wording.messages();
  Words set = messages.words("targets." + plan.targets.id);
  if (!own_figures(plan.targets).empty()) {
    set = messages.words("own_figures.marked", {{"name", std::move(set)}});
  }
  const Words gate = plain(typeset(short_sources(plan.gate_sources)));
  facts.set("target_set", set);
  facts.set("gate_source", gate);
  const bool is_one = plan.gate_sources == std::vector{plan.targets.source};
  facts.set("authorities",
            is_one ? messages.words("authorities.one", {{"set", std::move(set)}})
                   : messages.words("authorities.two", {{"set", std::move(set)}, {"gate", gate}}));
}

void set_foot(Facts& facts, const Wording& wording) {
  const Plan& plan = wording.plan();
  facts.set("fingerprint", printed_fingerprint(plan.fingerprint));
  set_authorities(facts, wording);
  facts.set("version", wording.sources().version);
}

}  // namespace

Facts plan_facts(const SheetSources& sources, const Messages& messages) {
  const Wording wording(sources, messages);
  Facts facts(plan_shape());
  set_people(facts, wording);
  set_help(facts, wording);
  set_vessel(facts, wording);
  set_cautions(facts, wording);
  facts.set("never_mix", never_mix(wording));
  facts.set("worst_pairs", worst_pairs(wording));
  facts.set("readings", reading_facts(wording));
  facts.set("held", held_facts(wording));
  facts.set("last_number", std::to_string(last_number(sources.plan)));
  facts.set("found", found_facts(wording));
  facts.set("gate_closed", gate_closed_words(wording));
  facts.set("own_figures", own_figures_words(wording));
  facts.set("cautions", caution_facts(wording));
  facts.set("unmet", unmet_facts(wording));
  facts.set("rungs", rung_facts(wording));
  facts.set("active", active_sanitizer_words(wording));
  facts.set("outlook", outlook_words(wording));
  facts.set("hand_over", hand_over_words(wording));
  facts.set("drift", drift_words(wording));
  facts.set("assumed", assumed_words(wording));
  set_foot(facts, wording);
  return facts;
}

}  // namespace tub::sheets
