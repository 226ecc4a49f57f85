// Numbers get their unit from a message, so that each language places both.
#include "sheets/template/wording.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cassert>
#include <cmath>
#include <utility>

#include "base/text.h"

namespace tub::sheets {
namespace {

constexpr double litres_a_us_gallon = 3.785411784;  // exact: 231 cubic inches
constexpr double millilitres_a_us_fluid_ounce = 29.5735295625;
constexpr double grams_an_ounce = 28.349523125;  // exact: international avoirdupois
constexpr double finest_ounces = 0.095;          // what prints as a tenth at least
constexpr double minutes_an_hour = 60;
constexpr double minutes_a_day = 24 * minutes_an_hour;

// How finely each reading is printed: as far as any owner's test shows it.
Decimals decimals_of(Reading reading) {
  switch (reading) {
    case Reading::ph:
      return {1, 1};
    case Reading::free_chlorine:
    case Reading::total_bromine:
    case Reading::combined_chlorine:
      return {0, 1};
    case Reading::copper:
    case Reading::iron:
    case Reading::manganese:
      return {0, 2};
    default:
      return {0, 0};
  }
}

bool is_scale_unit(const std::string& unit) {
  constexpr std::array<std::string_view, 4> amount_units = {"g", "ml", "oz", "us_fluid_ounce"};
  return std::find(amount_units.begin(), amount_units.end(), unit) != amount_units.end();
}

bool is_us_scale_unit(const std::string& unit) { return unit == "oz" || unit == "us_fluid_ounce"; }

// A figure that nobody measured: two digits are enough.
Decimals two_figures(double value) {
  if (std::abs(value) >= 10) return {0, 0};
  return {0, std::abs(value) >= 1 ? 1 : 2};
}

bool ends_in(std::string_view name, std::string_view suffix) {
  return name == suffix || (name.size() > suffix.size() && name.ends_with(suffix) &&
                            name[name.size() - suffix.size() - 1] == '_');
}

}  // namespace

Wording::Wording(const SheetSources& sources, const Messages& messages)
    : sources_(&sources), messages_(&messages) {}

bool Wording::weighs_in_ounces() const { return sources_->heading.weighs_in == UnitSystem::us; }

bool Wording::is_in_us_units() const { return sources_->heading.measures_in == UnitSystem::us; }

const Product& Wording::product(const std::string& id) const {
  const auto found = std::find_if(sources_->products.begin(), sources_->products.end(),
                                  [&](const Product& row) { return row.id == id; });
  assert(found != sources_->products.end() && "a plan's product that has no row");
  return *found;
}

std::string Wording::product_name(const std::string& id) const {
  return messages_->text(fmt::format("product.{}.name", id));
}

std::string Wording::product_in_text(const std::string& id) const {
  return messages_->text(fmt::format("product.{}.in_text", id));
}

std::string Wording::reading_name(Reading reading) const {
  return messages_->text(fmt::format("reading.{}.name", name_of(reading)));
}

std::string Wording::short_reading_name(Reading reading) const {
  const std::string key = fmt::format("reading.{}.short", name_of(reading));
  return messages_->has(key) ? messages_->text(key) : reading_name(reading);
}

std::string Wording::reading_in_text(Reading reading) const {
  return messages_->text(fmt::format("reading.{}.in_text", name_of(reading)));
}

std::string Wording::reading_unit(Reading reading) const {
  if (reading == Reading::ph) return "";
  const bool is_as_carbonate =
      reading == Reading::total_alkalinity || reading == Reading::calcium_hardness;
  return messages_->text(is_as_carbonate ? "unit.mg_l_as_caco3_name" : "unit.mg_l_name");
}

Words Wording::emergency() const {
  const std::optional<Country>& country = sources_->heading.country;
  return country ? plain(country->emergency) : messages_->words("emergency.unknown");
}

std::string Wording::value(Reading reading, double value) const {
  return number_text(value, decimals_of(reading), messages_->numbers());
}

std::string Wording::measured(Reading reading, double value) const {
  Decimals decimals = decimals_of(reading);
  if (decimals.most > 0) decimals.most = std::max(decimals.most, 2);
  return number_text(value, decimals, messages_->numbers());
}

std::string Wording::range(Reading reading, Range range) const {
  return range_text(range, decimals_of(reading), messages_->numbers());
}

std::string Wording::limits(Reading reading, const Limits& limits) const {
  if (limits.low && limits.high && *limits.low > 0) {
    return range(reading, {*limits.low, *limits.high});
  }
  if (limits.high) return messages_->text("limit.at_most", {{"n", value(reading, *limits.high)}});
  if (limits.low) return messages_->text("limit.at_least", {{"n", value(reading, *limits.low)}});
  return "";
}

Range Wording::printed_range(Reading reading, Range range) const {
  return rounded_outward(range, decimals_of(reading).most);
}

std::string Wording::with_unit(std::string_view unit, double value, Decimals decimals) const {
  return messages_->text(fmt::format("unit.{}", unit),
                         {{"n", number_text(value, decimals, messages_->numbers())}});
}

std::string Wording::measure(const Measure& measure, std::string_view form) const {
  if (is_scale_unit(measure.unit)) {
    // A label has no room to say that its ounces are weighed; its liquids are in "US fl oz".
    const bool is_short = form.starts_with("label.") && measure.unit == "oz";
    return with_unit(is_short ? "oz_on_label" : measure.unit, measure.count,
                     {0, measure.count < 1 ? 2 : 1});
  }
  const bool is_one = measure.count <= messages_->numbers().singular_up_to;
  const std::string key =
      fmt::format("spoon.{}.{}.{}", measure.unit, form, is_one ? "one" : "many");
  return messages_->text(key, {{"n", count_text(measure.count, messages_->numbers())}});
}

bool Wording::has_spoons(const Portion& portion) const {
  return std::any_of(portion.measure.begin(), portion.measure.end(),
                     [](const Measure& m) { return !is_scale_unit(m.unit); });
}

Amount Wording::amount(const Portion& portion, const std::string& product_id) const {
  return amount(portion, product_id, "");
}

Amount Wording::label_amount(const Portion& portion, const std::string& product_id) const {
  return amount(portion, product_id, "label.");
}

Amount Wording::amount(const Portion& portion, const std::string& product_id,
                       std::string_view where) const {
  const bool is_liquid = product(product_id).form == Form::liquid || !portion.amount_g;
  Amount amount;
  if (portion.amount_ml) {
    amount.text = millilitres(*portion.amount_ml);
  } else if (portion.amount_g) {
    const bool is_fine = *portion.amount_g < finest_ounces * grams_an_ounce;
    amount.text = is_fine ? with_unit("g", *portion.amount_g, {0, 1}) : grams(*portion.amount_g);
  }
  for (const Measure& part : portion.measure) {
    const std::string said =
        measure(part, fmt::format("{}{}", where, is_liquid ? "liquid" : "level"));
    if (is_us_scale_unit(part.unit)) {
      // What is finer than a kitchen scale's tenth of an ounce is weighed on one that shows grams.
      if (!portion.amount_g || part.count >= finest_ounces) amount.text = said;
    } else if (!is_scale_unit(part.unit)) {
      amount.spoons =
          amount.spoons.empty()
              ? said
              : messages_->text("spoon.and", {{"first", amount.spoons}, {"second", said}});
    }
  }
  return amount;
}

std::string Wording::volume(double litres) const {
  if (is_in_us_units()) return with_unit("us_gallon", litres / litres_a_us_gallon, {0, 0});
  return with_unit("litre", litres, {0, 0});
}

std::string Wording::other_volume(double litres) const {
  if (is_in_us_units()) return with_unit("litre", litres, {0, 0});
  return with_unit("us_gallon", litres / litres_a_us_gallon, {0, 0});
}

std::string Wording::rounded_volume(double litres) const {
  constexpr double large = 100;
  const double liter_or_gallon = is_in_us_units() ? litres_a_us_gallon : 1;
  const double amount = litres / liter_or_gallon;
  const double step = amount >= large ? 10 : 1;
  return volume(std::round(amount / step) * step * liter_or_gallon);
}

std::string Wording::temperature(double celsius) const {
  if (is_in_us_units()) return with_unit("fahrenheit", celsius * 1.8 + 32, {0, 0});
  return with_unit("celsius", celsius, {0, 1});
}

std::string Wording::days(double days) const {
  const bool is_one = days <= messages_->numbers().singular_up_to;
  return messages_->text(is_one ? "unit.day.one" : "unit.day.many", {{"n", count(days)}});
}

std::string Wording::duration(double minutes) const {
  const bool is_days = minutes >= minutes_a_day && std::fmod(minutes, minutes_a_day) == 0;
  if (is_days) return days(minutes / minutes_a_day);
  const double hours = minutes / minutes_an_hour;
  const bool is_half_hours = minutes >= minutes_an_hour && std::fmod(minutes, 30) == 0;
  if (!is_half_hours) return with_unit("minute", minutes, {0, 0});
  return messages_->text("unit.hour", {{"n", count(hours)}});
}

std::string Wording::about(double hours) const {
  constexpr double two_days = 48;
  constexpr double half_a_day = 12;
  constexpr double noise = 1e-9;
  if (hours > two_days) return days(std::ceil(hours * minutes_an_hour / minutes_a_day - noise));
  if (hours > half_a_day) return duration(std::ceil(hours - noise) * minutes_an_hour);
  const double half_hours = std::max(1.0, std::ceil(hours * 2 - 1e-9));
  return duration(half_hours * minutes_an_hour / 2);
}

std::string Wording::at_least(double hours) const {
  const double half_hours = std::max(1.0, std::floor(hours * 2 + 1e-9));
  return duration(half_hours * minutes_an_hour / 2);
}

std::string Wording::hours(const Interval& hours) const {
  const std::string low = count(std::max(0.5, std::floor(hours.low * 2) / 2));
  const std::string high = count(std::ceil(hours.high * 2) / 2);
  return messages_->text("unit.hour", {{"n", low == high ? low : low + "–" + high}});
}

std::string Wording::percent(double share) const {
  constexpr double hundred = 100;
  return with_unit("percent", share * hundred, {0, 1});
}

std::string Wording::rounded_percent(double share) const {
  constexpr double hundred = 100;
  return with_unit("percent", share * hundred, {0, 0});
}

std::string Wording::percents(Range shares) const {
  constexpr double hundred = 100;
  constexpr double small = 0.1;  // below it a whole percent says too little
  const int decimals = shares.high < small ? 1 : 0;
  const Range ends = rounded_outward({shares.low * hundred, shares.high * hundred}, decimals);
  return messages_->text("unit.percent",
                         {{"n", range_text(ends, {0, decimals}, messages_->numbers())}});
}

std::string Wording::grams(double grams) const {
  if (weighs_in_ounces()) return with_unit("oz", grams / grams_an_ounce, {0, 1});
  return with_unit("g", grams, {0, 1});
}

std::string Wording::millilitres(double millilitres) const {
  if (!weighs_in_ounces()) return with_unit("ml", millilitres, {0, 1});
  return with_unit("us_fluid_ounce", millilitres / millilitres_a_us_fluid_ounce, {0, 1});
}

std::string Wording::count(double number) const { return count_text(number, messages_->numbers()); }

std::string Wording::named(const std::string& text) const {
  if (const auto reading = reading_named(text)) return reading_in_text(*reading);
  for (const std::string_view group : {"product.{}.in_text", "water.{}", "ion.{}"}) {
    const std::string key = fmt::format(fmt::runtime(group), text);
    if (messages_->has(key)) return messages_->text(key);
  }
  return typeset(text);
}

std::string Wording::number_with_unit(const std::string& name, double value) const {
  // The unit of a list of concentrations stands at its head.
  if (name.ends_with("mg_l")) return number_text(value, two_figures(value), messages_->numbers());
  if (ends_in(name, "l")) return volume(value);
  if (ends_in(name, "ph")) return number_text(value, {1, 2}, messages_->numbers());
  if (ends_in(name, "g")) return with_unit("g", value, {0, 1});
  if (ends_in(name, "ml")) return with_unit("ml", value, {0, 0});
  if (ends_in(name, "c")) return temperature(value);
  if (ends_in(name, "hours") || name.starts_with("hours_")) return about(value);
  if (ends_in(name, "minutes")) return duration(value);
  if (ends_in(name, "share") || ends_in(name, "fraction")) return percent(value);
  return number_text(value, {0, 2}, messages_->numbers());
}

std::string Wording::parameter(const std::string& name, const Reason::Parameter& value) const {
  if (const auto* const text = std::get_if<std::string>(&value)) return named(*text);
  return number_with_unit(name, std::get<double>(value));
}

// A figure of an assumption: its unit stands beside it in the reason, or ends the code's name.
std::string Wording::in_unit(const std::string& unit, double value) const {
  if (unit.starts_with("share")) return percent(value);
  if (unit == "°C") return temperature(value);
  if (unit == "min") return duration(value);
  return number_text(value, two_figures(value), messages_->numbers());
}

Words Wording::reason(const Reason& reason, std::string_view group) const {
  std::optional<std::string> unit;
  for (const auto& [name, value] : reason.parameters) {
    if (name == "unit") unit = std::get<std::string>(value);
  }
  std::vector<MessageParameter> parameters;
  for (const auto& [name, value] : reason.parameters) {
    const auto* const number = std::get_if<double>(&value);
    if (number != nullptr && unit) {
      parameters.emplace_back(name, in_unit(*unit, *number));
    } else if (number != nullptr && name == "value") {
      parameters.emplace_back(name, number_with_unit(reason.code, *number));
    } else {
      parameters.emplace_back(name, parameter(name, value));
    }
  }
  return messages_->words(fmt::format("{}.{}", group, reason.code), parameters);
}

std::string typeset(std::string_view text) { return replaced(text, "'", "\u2019"); }

std::string unbroken(std::string_view text) {
  return replaced(replaced(typeset(text), " ", "\u00A0"), "-", "\u2011");
}

}  // namespace tub::sheets
