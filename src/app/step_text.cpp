#include "app/step_text.h"

#include <fmt/format.h>

#include "app/paragraph.h"
#include "app/range_text.h"
#include "base/text.h"

namespace tub::app {
namespace {

std::string named(const Messages& names, const std::string& key, const std::string& otherwise) {
  return names.has(key) ? names.text(key) : otherwise;
}

// With a capital at its start, unless it is "pH".
std::string capital(std::string text) {
  const bool is_small = !text.empty() && text[0] >= 'a' && text[0] <= 'z';
  if (is_small && !text.starts_with("pH")) text[0] = static_cast<char>(text[0] - 'a' + 'A');
  return text;
}

std::string limits_text(Reading reading, const Limits& limits) {
  if (!limits.low && !limits.high) return "anything";
  if (!limits.low) return fmt::format("{} or less", reading_text(reading, *limits.high));
  if (!limits.high) return fmt::format("{} or more", reading_text(reading, *limits.low));
  if (*limits.low == *limits.high) return reading_text(reading, *limits.low);
  return fmt::format("{} to {}", reading_text(reading, *limits.low),
                     reading_text(reading, *limits.high));
}

std::string condition_text(const Condition& condition, const Messages& names) {
  const bool is_below = condition.side == Condition::Side::below;
  return fmt::format("{} is {} {}", reading_name(condition.reading, names),
                     is_below ? "below" : "above", reading_text(condition.reading, condition.edge));
}

bool is_spoon(const Measure& measure) {
  return measure.unit.find("spoon") != std::string::npos ||
         measure.unit.find("cup") != std::string::npos;
}

std::string measure_text(const Measure& measure) {
  const std::string unit = replaced(replaced(measure.unit, "us_", "US "), "_", " ");
  const bool are_many = measure.count > 1 && unit != "oz";
  return fmt::format("{} {}{}", tidy(measure.count, 2), unit, are_many ? "s" : "");
}

// Grams or millilitres, then what the owner's own measure makes of them: ounces, level spoons.
std::string amount_text(const Portion& portion) {
  std::string amount;
  if (portion.amount_g) amount = tidy(*portion.amount_g, 1) + " g";
  if (portion.amount_ml) {
    amount += (amount.empty() ? "" : ", ") + tidy(*portion.amount_ml, 1) + " mL";
  }
  std::string own;
  bool follows_spoon = false;
  for (const Measure& measure : portion.measure) {
    if (!own.empty()) own += follows_spoon && is_spoon(measure) ? " and " : ", or ";
    own += measure_text(measure);
    follows_spoon = is_spoon(measure);
  }
  return own.empty() ? amount : fmt::format("{} ({})", amount, own);
}

std::string expectation_text(const Portion& portion, const Messages& names) {
  std::string text;
  for (const auto& [reading, interval] : portion.expect) {
    text += fmt::format("; expect {} from {}", reading_name(reading, names),
                        range_text(reading, {interval.low, interval.high}));
  }
  return text;
}

std::string portion_text(const Portion& portion, const Messages& names) {
  const std::string when =
      portion.only_if ? fmt::format("If {}, add", condition_text(*portion.only_if, names)) : "Add";
  const std::string wait =
      portion.wait_minutes > 0 ? ", wait " + time_text(portion.wait_minutes) : "";
  return fmt::format("{} {}{}{}.", when, amount_text(portion), wait,
                     expectation_text(portion, names));
}

std::string when_text(TestOutcome::When when) {
  switch (when) {
    case TestOutcome::When::inside:
      return "inside";
    case TestOutcome::When::over:
      return "above";
    case TestOutcome::When::under:
      return "below";
    case TestOutcome::When::over_after_all:
      return "still above";
    case TestOutcome::When::under_after_all:
      return "still below";
  }
  return "";
}

std::string action_text(const TestOutcome& outcome) {
  switch (outcome.action) {
    case TestOutcome::Action::skip_rest:
      return "go on";
    case TestOutcome::Action::stop_and_call:
      return "stop and call";
    case TestOutcome::Action::wait_and_test:
      return outcome.hours ? fmt::format("wait {} h and test again", tidy(*outcome.hours, 1))
                           : "wait and test again";
  }
  return "";
}

std::string outcome_text(const TestOutcome& outcome) {
  if (!outcome.is_clarity) return when_text(outcome.when) + ": " + action_text(outcome);
  const bool is_clear = outcome.when == TestOutcome::When::inside;
  return std::string(is_clear ? "clear" : "brown or cloudy") + ": " + action_text(outcome);
}

// What each test of the step should show, and what to do about it.
std::string tests_text(const Step& step, const Messages& names) {
  std::string text;
  if (step.test_too_coarse) text += " The test at hand is too coarse for it: have it tested.";
  for (const auto& [reading, limits] : step.accept) {
    text += fmt::format(" {} should read {}", capital(reading_name(reading, names)),
                        limits_text(reading, limits));
    for (const TestOutcome& outcome : step.outcomes) {
      if (!outcome.is_clarity && outcome.reading == reading) text += "; " + outcome_text(outcome);
    }
    text += ".";
  }
  std::string look;
  for (const TestOutcome& outcome : step.outcomes) {
    if (outcome.is_clarity) look += (look.empty() ? " Look: " : "; ") + outcome_text(outcome);
  }
  return text + look + (look.empty() ? "" : ".");
}

// Tablets that keep the sanitizer up have no test of their own.
std::string floater_text(const Step& step) {
  for (const Reason& note : step.notes) {
    if (note.code == "floater_keeps_it_up") {
      return " They go into a floater and replace what is used: test every day.";
    }
  }
  return "";
}

class StepWords {
 public:
  explicit StepWords(const Messages& names) : names_(names) {}

  std::string operator()(const FillVessel&) const { return "Fill to the marked line."; }
  std::string operator()(const Heat& heat) const {
    return fmt::format("Heat to {} °C.", tidy(heat.to_c, 1));
  }
  std::string operator()(const Addition& addition) const {
    std::string text = capital(product_name(addition.product, names_));
    if (addition.reading) text += ", for " + reading_name(*addition.reading, names_);
    text += ".";
    for (const Portion& portion : addition.portions) text += " " + portion_text(portion, names_);
    return text;
  }
  std::string operator()(const ReleaseCarbonDioxide& release) const {
    const Interval& hours = release.jets_hours;
    return fmt::format("Jets and air on for {} h (from {}), to drive carbon dioxide out.",
                       tidy(hours.value, 1), range_text({hours.low, hours.high}, 1));
  }
  std::string operator()(const Repeat& repeat) const {
    std::string text =
        fmt::format("About {} rounds, at most {}, until {}. Each round:", repeat.times,
                    repeat.at_most, condition_text(repeat.until, names_));
    for (const Step& step : repeat.steps) text += " " + step_text(step, names_);
    return text;
  }
  std::string operator()(const Replace& replace) const {
    return fmt::format("{} % of the water from the {}; in a full tub, drain so much first.",
                       tidy(100 * replace.fraction, 0), replaced(replace.with, "_", " "));
  }

 private:
  const Messages& names_;
};

}  // namespace

std::string product_name(const std::string& product, const Messages& names) {
  return named(names, "product." + product + ".in_text", product);
}

std::string reading_name(Reading reading, const Messages& names) {
  const std::string name(name_of(reading));
  return named(names, "reading." + name + ".in_text", name);
}

std::string time_text(double minutes) {
  constexpr double an_hour = 60;
  constexpr double a_day = 24 * an_hour;
  if (minutes < 2 * an_hour) return tidy(minutes, 0) + " min";
  if (minutes < a_day) return tidy(minutes / an_hour, 1) + " h";
  return fmt::format("{} day{}", tidy(minutes / a_day, 1), minutes > a_day ? "s" : "");
}

std::string step_text(const Step& step, const Messages& names) {
  return std::visit(StepWords(names), step.what) + floater_text(step) + tests_text(step, names);
}

}  // namespace tub::app
