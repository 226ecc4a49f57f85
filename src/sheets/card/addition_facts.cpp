// Every sentence is a message; this file chooses which one.
#include "sheets/card/addition_facts.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <optional>
#include <string>
#include <utility>

#include "sheets/card/plan_shape.h"
#include "sheets/card/rung_facts.h"

namespace tub::sheets {
namespace {

std::string raising_key(const Product& product, Reading reading) {
  switch (reading) {
    case Reading::ph:
      return product.can(Purpose::lower_ph) ? "lower_ph" : "raise_ph";
    case Reading::total_alkalinity:
      return product.can(Purpose::lower_ph) ? "lower_alkalinity" : "raise_alkalinity";
    case Reading::calcium_hardness:
      return "raise_calcium";
    case Reading::total_bromine:
      if (product.can(Purpose::bromide_bank)) return "bromide_bank";
      return product.in_group("bromine") ? "sanitize" : "wake_bromide";
    case Reading::cyanuric_acid:
      return "stabilise_chlorine";
    default:
      return "sanitize";
  }
}

std::string held_metals(const Wording& wording) {
  std::string names;
  for (const auto& [reading, value] : wording.plan().held) {
    const std::string name = wording.reading_in_text(reading);
    names = names.empty()
                ? name
                : wording.messages().text("list.and", {{"first", names}, {"second", name}});
  }
  return names;
}

Words what_it_does(const Wording& wording, const Addition& addition) {
  const Product& product = wording.product(addition.product);
  const Messages& messages = wording.messages();
  if (product.can(Purpose::hold_metals)) {
    const std::string metals = held_metals(wording);
    if (metals.empty()) return messages.words("does.hold_metals");
    return messages.words("does.hold_named_metals", {{"metals", metals}});
  }
  if (product.dissolves && addition.adds_g.empty()) return messages.words("does.keep_up_bromine");
  return messages.words("does." + raising_key(product, addition.reading.value_or(Reading::ph)));
}

// Notes that stand elsewhere than below their own step's pours.
bool says_what_moves(const Reason& note) { return note.code == "later_step_moves_it"; }
bool says_what_waits(const Reason& note) { return note.code == "waits_before_next"; }

// "step 4 takes 10 off"
Words moving_words(const Wording& wording, const Reason& note) {
  const Reading reading = reading_named(note.text("reading")).value_or(Reading::ph);
  const double change = note.number("change").value();
  return wording.messages().words(change < 0 ? "note.later_step_takes" : "note.later_step_adds",
                                  {{"step", wording.count(note.number("step").value())},
                                   {"amount", wording.value(reading, std::abs(change))}});
}

void add_purpose(Facts& rung, const Wording& wording, const Step& step, const Addition& addition) {
  const Messages& messages = wording.messages();
  const Words does = what_it_does(wording, addition);
  Words notes;
  for (const Reason& note : step.notes) {
    if (!says_what_moves(note)) continue;
    const Words said = moving_words(wording, note);
    notes = notes.empty() ? said
                          : messages.words("list.semicolon", {{"first", notes}, {"second", said}});
  }
  rung.add("aside", text_facts(notes.empty() ? messages.words("rung.does", {{"does", does}})
                                             : messages.words("rung.does_and_note",
                                                              {{"does", does}, {"note", notes}})));
}

// What a product asks for beyond the signs at the head of the page.
std::vector<std::string> further_protection(const Wording& wording, const Product& product) {
  const std::vector<std::string> common = common_protection(wording);
  std::vector<std::string> further;
  for (const std::string& sign : product.protection) {
    if (std::find(common.begin(), common.end(), sign) == common.end()) further.push_back(sign);
  }
  return further;
}

// A grave danger gets its own line, and its product's whole set of signs beside it.
void set_hazard(Facts& rung, const Wording& wording, const Product& product) {
  const Messages& messages = wording.messages();
  Words hazard;
  if (!product.danger.empty()) hazard = messages.words("danger." + product.danger);
  for (const std::string& sign : further_protection(wording, product)) {
    const Words too = messages.words("protection." + sign + ".too");
    hazard =
        hazard.empty() ? too : messages.words("sentences", {{"first", hazard}, {"second", too}});
  }
  if (is_grave(product)) {
    rung.set("signs", sign_facts(wording, product.protection));
    rung.set("hazard", std::move(hazard));
  } else if (!hazard.empty()) {
    rung.add("aside", text_facts(std::move(hazard)));
  }
}

bool is_to_be_weighed(const Product& product) {
  const bool is_dry = product.form == Form::granules;
  return is_dry && (product.in_group("acid") || product.in_group("sanitizer"));
}

// More spoons than this are easily miscounted. Assumption.
constexpr double most_spoons = 5;

bool takes_many_spoons(const Portion& portion) {
  return std::any_of(portion.measure.begin(), portion.measure.end(), [](const Measure& part) {
    return part.unit.ends_with("spoon") && part.count > most_spoons;
  });
}

/// The spoons of a pour; where there are many of a powder, the scale beside them.
std::string spoons_text(const Wording& wording, const Portion& portion, const Product& product,
                        const Amount& amount) {
  const bool is_said_above = is_to_be_weighed(product) || portion.only_if;
  const bool is_long = product.form == Form::granules && takes_many_spoons(portion);
  if (is_said_above || !is_long) return amount.spoons;
  return wording.messages().text("spoon.or_weigh", {{"spoons", amount.spoons}});
}

Words condition_words(const Wording& wording, const Condition& condition) {
  const std::string edge = wording.value(condition.reading, condition.edge);
  const bool is_below = condition.side == Condition::Side::below;
  return wording.messages().words(is_below ? "pour.if_under" : "pour.if_over", {{"n", edge}});
}

Words expected_words(const Wording& wording, const Step& step, const Portion& portion) {
  if (!step.test) return {};
  const auto expected = portion.expect.find(*step.test);
  if (expected == portion.expect.end()) return {};
  const Range range = {expected->second.low, expected->second.high};
  return wording.messages().words("pour.expect", {{"range", wording.range(*step.test, range)}});
}

bool has_target(const Step& step) {
  return step.test_is_clarity || (step.test && step.accept.contains(*step.test));
}

Facts pour_facts(const Wording& wording, const Step& step, const Addition& addition,
                 const Portion& portion) {
  const bool shows_target = &portion == &addition.portions.back() && has_target(step);
  // A pour that is set in behind its condition has the room of a label.
  const Amount amount = portion.only_if ? wording.label_amount(portion, addition.product)
                                        : wording.amount(portion, addition.product);
  Facts facts(pour_shape());
  if (portion.only_if) facts.set("condition", condition_words(wording, *portion.only_if));
  facts.set("amount", amount.text);
  facts.set("spoons", spoons_text(wording, portion, wording.product(addition.product), amount));
  if (portion.wait_minutes > 0) facts.set("wait", wording.duration(portion.wait_minutes));
  facts.set("test", test_words(wording, step));
  facts.set("reading",
            shows_target ? target_words(wording, step) : expected_words(wording, step, portion));
  return facts;
}

bool is_over(TestOutcome::When when) {
  return when == TestOutcome::When::over || when == TestOutcome::When::over_after_all;
}

bool is_after_all(TestOutcome::When when) {
  return when == TestOutcome::When::over_after_all || when == TestOutcome::When::under_after_all;
}

std::string outcome_key(const TestOutcome& outcome, OutcomeStyle style) {
  const char* const group = style.names_it ? "outcome.of" : "outcome";
  if (outcome.when == TestOutcome::When::inside) return fmt::format("{}.inside", group);
  const bool is_late = is_after_all(outcome.when) && style.pours > 1;
  return fmt::format("{}.{}{}", group, is_over(outcome.when) ? "over" : "under",
                     is_late ? "_after_both" : "");
}

Words outcome_reads(const Wording& wording, const Step& step, const TestOutcome& outcome,
                    OutcomeStyle style) {
  const Messages& messages = wording.messages();
  const bool is_inside = outcome.when == TestOutcome::When::inside;
  if (outcome.is_clarity) return messages.words(is_inside ? "outcome.clear" : "outcome.cloudy");
  const auto found = step.accept.find(outcome.reading);
  const Limits limits = found == step.accept.end() ? Limits{} : found->second;
  const std::optional<double> edge = is_over(outcome.when) ? limits.high : limits.low;
  return messages.words(outcome_key(outcome, style),
                        {{"name", wording.reading_name(outcome.reading)},
                         {"range", wording.limits(outcome.reading, limits)},
                         {"n", edge ? wording.value(outcome.reading, *edge) : ""}});
}

// Whether a band has the end that an outcome is about: nothing is over a band that is open above.
bool can_happen(const Step& step, const TestOutcome& outcome) {
  if (outcome.is_clarity || outcome.when == TestOutcome::When::inside) return true;
  const auto found = step.accept.find(outcome.reading);
  if (found == step.accept.end()) return false;
  return is_over(outcome.when) ? found->second.high.has_value() : found->second.low.value_or(0) > 0;
}

// What is too high falls with the cover off; what is too low is still on its way up.
const char* waiting_key(const TestOutcome& outcome, OutcomeStyle style) {
  if (style.waiting == OutcomeStyle::Waiting::airing) return "then.air_and_test";
  if (!is_over(outcome.when)) return "then.leave_and_test";
  const bool is_floater = style.waiting == OutcomeStyle::Waiting::floater_out;
  return is_floater ? "then.take_out_and_test" : "then.wait_and_test";
}

Words outcome_action(const Wording& wording, const TestOutcome& outcome, OutcomeStyle style) {
  const Messages& messages = wording.messages();
  const std::string time = wording.about(outcome.hours.value_or(1));
  switch (outcome.action) {
    case TestOutcome::Action::skip_rest:
      return messages.words(style.pours > 1 ? "then.skip_rest" : "then.go_on");
    case TestOutcome::Action::wait_and_test:
      return messages.words(waiting_key(outcome, style), {{"time", time}});
    case TestOutcome::Action::stop_and_call:
      break;
  }
  return messages.words("then.stop_and_call");
}

}  // namespace

Facts text_facts(Words words) {
  Facts facts(text_list);
  facts.set("text", std::move(words));
  return facts;
}

Words test_words(const Wording& wording, const Step& step) {
  const Messages& messages = wording.messages();
  if (step.test_is_clarity) return messages.words("pour.look");
  if (step.test_too_coarse) return messages.words("pour.have_us_test");
  return step.test ? plain(wording.reading_in_text(*step.test)) : messages.words("pour.no_test");
}

Words target_words(const Wording& wording, const Step& step) {
  const Messages& messages = wording.messages();
  if (step.test_is_clarity) return messages.words("pour.target_clear");
  if (!step.test) return {};
  const auto accept = step.accept.find(*step.test);
  if (accept == step.accept.end()) return {};
  return messages.words("pour.target", {{"range", wording.limits(*step.test, accept->second)}});
}

bool is_grave(const Product& product) {
  const bool is_named =
      product.in_group("acid") || product.in_group("sanitizer") || product.in_group("oxidiser");
  return !product.danger.empty() && (is_named || product.signal == Product::Signal::danger);
}

void set_product(Facts& rung, const Wording& wording, const Step& step, const Addition& addition) {
  const Product& product = wording.product(addition.product);
  const Messages& messages = wording.messages();
  rung.set("title", wording.product_name(addition.product));
  add_purpose(rung, wording, step, addition);
  rung.add("aside", text_facts(messages.words(fmt::format("product.{}.how", addition.product))));
  const bool uses_spoons =
      std::any_of(addition.portions.begin(), addition.portions.end(),
                  [&](const Portion& portion) { return wording.has_spoons(portion); });
  if (uses_spoons && is_to_be_weighed(product)) {
    rung.add("aside", text_facts(messages.words("rung.weigh")));
  }
  set_hazard(rung, wording, product);
  add_waiting(rung, wording, step.number);
  if (product.in_group("sanitizer")) rung.set("sanitizer", messages.words("yes"));
}

void add_waiting(Facts& rung, const Wording& wording, int number) {
  for (const Step& step : wording.plan().steps) {
    for (const Reason& note : step.notes) {
      if (!says_what_waits(note) || note.number("next_step") != number) continue;
      rung.add("aside", text_facts(wording.reason(note, "note")));
    }
  }
}

void add_pours(Facts& rung, const Wording& wording, const Step& step, const Addition& addition) {
  for (const Portion& portion : addition.portions) {
    rung.add("pours", pour_facts(wording, step, addition, portion));
  }
}

void add_outcome(Facts& rung, Words reads, Words then) {
  Facts facts(outcome_shape());
  facts.set("reads", std::move(reads));
  facts.set("then", std::move(then));
  rung.add("outcomes", std::move(facts));
}

void add_outcomes(Facts& rung, const Wording& wording, const Step& step, OutcomeStyle style) {
  for (const TestOutcome& outcome : step.outcomes) {
    if (!can_happen(step, outcome)) continue;
    add_outcome(rung, outcome_reads(wording, step, outcome, style),
                outcome_action(wording, outcome, style));
  }
}

void add_notes(Facts& rung, const Wording& wording, const Step& step) {
  for (const Reason& note : step.notes) {
    if (says_what_moves(note) || says_what_waits(note)) continue;
    rung.add("notes", text_facts(wording.reason(note, "note")));
  }
  if (step.test_too_coarse) {
    rung.add("notes", text_facts(wording.messages().words("rung.too_coarse")));
  }
}

}  // namespace tub::sheets
