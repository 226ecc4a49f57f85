#include "app/retest_text.h"

#include <fmt/format.h>

#include <cmath>

#include "app/paragraph.h"
#include "app/range_text.h"
#include "app/step_text.h"

namespace tub::app {
namespace {

std::string amount_of(const Addition& addition) {
  if (addition.amount_g) return tidy(*addition.amount_g, 1) + " g";
  return addition.amount_ml ? tidy(*addition.amount_ml, 1) + " mL" : "";
}

std::string short_step(const Step& step, const Messages& names) {
  if (const auto* addition = std::get_if<Addition>(&step.what)) {
    return product_name(addition->product, names) + ", " + amount_of(*addition);
  }
  if (const auto* heat = std::get_if<Heat>(&step.what)) {
    return fmt::format("heat to {} °C", tidy(heat->to_c, 1));
  }
  if (const auto* repeat = std::get_if<Repeat>(&step.what)) {
    return fmt::format("{} rounds", repeat->times);
  }
  if (const auto* replace = std::get_if<Replace>(&step.what)) {
    return fmt::format("{} % replaced", tidy(100 * replace->fraction, 0));
  }
  return std::holds_alternative<FillVessel>(step.what) ? "fill" : "jets and air";
}

std::string percent(const Reason& reason, std::string_view name) {
  return tidy(100 * reason.number(name).value(), 0) + " %";
}

std::string percents(const Reason& reason, std::string_view low, std::string_view high) {
  return range_text({100 * reason.number(low).value(), 100 * reason.number(high).value()}, 0) +
         " %";
}

std::string likely_text(const Reason& reason, const Messages& names) {
  if (reason.code == "volume") {
    return fmt::format(
        "Likeliest reason: the tub holds about {} L ({} L); the plan goes by it.",
        tidy(reason.number("volume_l").value(), 0),
        range_text({reason.number("low_l").value(), reason.number("high_l").value()}, 0));
  }
  if (reason.code == "weak_product") {
    return fmt::format(
        "Likeliest reason: the {} has gone stale, to about {} of its label ({}); the plan goes by "
        "it.",
        product_name(reason.text("product"), names), percent(reason, "share"),
        percents(reason, "low", "high"));
  }
  if (reason.code == "carbon_dioxide_lost") {
    return fmt::format(
        "Likeliest reason: about {} of the surplus carbon dioxide has left through the jets.",
        percent(reason, "share"));
  }
  if (reason.code == "demand") {
    return fmt::format(
        "Likeliest reason: the water used up more sanitizer than assumed, about {} mg/L.",
        tidy(reason.number("demand_mg_l").value(), 1));
  }
  return "Nothing explains it: test again before going on.";
}

std::string place_text(const FoundReading& found) {
  if (!found.after_step) return "at a later visit, " + found.date;
  std::string place = fmt::format("after step {}", *found.after_step);
  if (found.after_round) place += fmt::format(", round {}", *found.after_round);
  if (found.after_pour) place += fmt::format(", pour {}", *found.after_pour);
  return found.date.empty() ? place : place + ", " + found.date;
}

}  // namespace

std::string done_text(const Plan& plan, const Messages& names) {
  std::string text;
  int number = 0;
  for (const Step& step : plan.done) {
    const bool is_same = step.number == number;
    number = step.number;
    if (!text.empty()) text += is_same ? ", " : "; ";
    text += is_same ? short_step(step, names)
                    : fmt::format("{} {}", step.number, short_step(step, names));
  }
  return text;
}

std::string found_text(const FoundReading& found, const Messages& names) {
  std::string text = fmt::format("{} {} {}", reading_name(found.reading, names),
                                 reading_text(found.reading, found.found), place_text(found));
  if (found.expected) {
    text += ", expected " + range_text(found.reading, {found.expected->low, found.expected->high});
  }
  text += ".";
  if (!found.likely) return text;
  text += fmt::format(" That is {} standard deviations off. ",
                      tidy(std::abs(found.deviations.value_or(0)), 1));
  return text + likely_text(*found.likely, names);
}

}  // namespace tub::app
