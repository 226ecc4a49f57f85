// Numbers and their texts side by side: the bar is as long as the range that is printed.
#include "sheets/card/channel_facts.h"

#include <algorithm>
#include <optional>
#include <string>
#include <utility>

#include "sheets/card/plan_shape.h"

namespace tub::sheets {
namespace {

// What the plot of each reading spans where a reading lies outside its band: what kits show.
// Common practice, no source.
Range plot_range(Reading reading) {
  switch (reading) {
    case Reading::ph:
      return {6.8, 8.4};
    case Reading::total_alkalinity:
      return {0, 300};
    case Reading::calcium_hardness:
      return {0, 500};
    case Reading::free_chlorine:
      return {0, 10};
    case Reading::total_bromine:
      return {0, 12};
    case Reading::combined_chlorine:
      return {0, 2};
    case Reading::cyanuric_acid:
      return {0, 150};
    case Reading::dissolved_solids:
      return {0, 4000};
    case Reading::copper:
    case Reading::iron:
    case Reading::manganese:
      return {0, 2};
  }
  return {};
}

// The gate where there is one: the card ends where people get in.
Limits band_of(const Plan& plan, Reading reading) {
  const auto gate = plan.gate.find(reading);
  if (gate != plan.gate.end()) return {gate->second.low, gate->second.high};
  const auto target = plan.targets.readings.find(reading);
  if (target == plan.targets.readings.end()) return {};
  return {target->second.low, target->second.high};
}

bool is_measured(const Plan& plan, Reading reading) {
  return std::find(plan.measured.begin(), plan.measured.end(), key_of(reading)) !=
         plan.measured.end();
}

bool is_unmet(const Plan& plan, Reading reading) {
  return std::any_of(plan.unmet.begin(), plan.unmet.end(),
                     [&](const Unmet& unmet) { return unmet.reading == reading; });
}

bool is_steered(const Plan& plan, Reading reading) {
  switch (reading) {
    case Reading::ph:
    case Reading::total_alkalinity:
    case Reading::calcium_hardness:
      return true;
    case Reading::free_chlorine:
    case Reading::total_bromine:
      return plan.gate.contains(reading);
    default:
      return false;
  }
}

bool is_shown(const Plan& plan, Reading reading) {
  const Limits band = band_of(plan, reading);
  if (!band.low && !band.high) return false;
  if (!plan.final_range.contains(std::string(key_of(reading)))) return false;
  if (plan.held.contains(reading)) return false;
  return is_steered(plan, reading) || is_measured(plan, reading) || is_unmet(plan, reading);
}

std::optional<double> start_value(const Plan& plan, Reading reading) {
  const std::string_view key = key_of(reading);
  for (const auto& row : reading_keys) {
    if (row.name == key) return plan.start.*row.member;
  }
  for (const auto& row : derived_keys) {
    if (row.name == key) return plan.start.*row.member;
  }
  return std::nullopt;
}

/// What the last test of it showed, in a plan that goes on from retests.
std::optional<double> last_found(const Plan& plan, Reading reading) {
  std::optional<double> last;
  for (const FoundReading& found : plan.found) {
    if (found.reading == reading) last = found.found;
  }
  return last;
}

void set_now(Facts& facts, const Wording& wording, Reading reading) {
  const std::optional<double> found = last_found(wording.plan(), reading);
  const std::optional<double> now = found ? found : start_value(wording.plan(), reading);
  if (!now || !is_measured(wording.plan(), reading)) {
    facts.set("now", wording.messages().words("channel.not_tested"));
    return;
  }
  const bool is_judged = !found && !wording.plan().found.empty();
  facts.set("now", is_judged ? wording.value(reading, *now) : wording.measured(reading, *now));
  facts.set("now_at", *now);
}

void set_band(Facts& facts, const Wording& wording, Reading reading, const Limits& band) {
  const bool has_low = band.low && *band.low > 0;
  if (has_low) facts.set("low", wording.value(reading, *band.low));
  if (band.high) facts.set("high", wording.value(reading, *band.high));
  facts.set("low_at", has_low ? *band.low : 0);
  facts.set("high_at", band.high ? *band.high : plot_range(reading).high);
  facts.set("target", wording.limits(reading, band));
}

void set_plot(Facts& facts, Reading reading, const Limits& band) {
  Range plot = plot_range(reading);
  const double margin = (plot.high - plot.low) / 10;  // a plot always reaches past its band
  if (band.low && *band.low > 0) plot.low = std::min(plot.low, *band.low - margin);
  if (band.high) plot.high = std::max(plot.high, *band.high + margin);
  facts.set("plot_low", std::max(plot.low, 0.0));
  facts.set("plot_high", plot.high);
}

Facts one_reading(const Wording& wording, Reading reading) {
  const Plan& plan = wording.plan();
  Facts facts(reading_shape());
  facts.set("name", wording.reading_name(reading));
  facts.set("unit", wording.reading_unit(reading));
  set_now(facts, wording, reading);
  const Limits band = band_of(plan, reading);
  set_band(facts, wording, reading, band);
  set_plot(facts, reading, band);
  const Range after =
      wording.printed_range(reading, plan.final_range.find(std::string(key_of(reading)))->second);
  facts.set("after", wording.range(reading, after));
  facts.set("after_low_at", after.low);
  facts.set("after_high_at", after.high);
  return facts;
}

}  // namespace

std::vector<Facts> reading_facts(const Wording& wording) {
  std::vector<Facts> rows;
  for (const Reading reading : all_readings) {
    if (is_shown(wording.plan(), reading)) rows.push_back(one_reading(wording, reading));
  }
  return rows;
}

std::vector<Facts> held_facts(const Wording& wording) {
  std::vector<Facts> rows;
  for (const auto& [reading, value] : wording.plan().held) {
    Facts facts(held_shape());
    facts.set("name", wording.reading_name(reading));
    facts.set("unit", wording.reading_unit(reading));
    facts.set("now", wording.measured(reading, value));
    rows.push_back(std::move(facts));
  }
  return rows;
}

}  // namespace tub::sheets
