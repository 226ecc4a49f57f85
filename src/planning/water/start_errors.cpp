#include "planning/water/start_errors.h"

#include <algorithm>
#include <cmath>
#include <functional>
#include <tuple>

#include "base/error.h"
#include "chemistry/operations.h"

namespace tub::planning {
namespace {

/// In half-widths: one in fifty of a normal lies further out to one side. A source that is cut
/// there or further out is as good as whole.
constexpr double seldom = 1.25;

/// The test that gave a reading of the slip; null if it was not measured.
const TestMethod* method_of(const std::string& key, const WaterTest& test,
                            const PlanningData& data) {
  const auto found = test.readings.find(key);
  if (found == test.readings.end()) return nullptr;
  for (const TestMethod& method : data.test_methods) {
    if (method.id == found->second.method) return &method;
  }
  return nullptr;
}

/// The row of a reading in the method that a key of the slip was tested with.
std::optional<ErrorRow> row_at(const std::string& key, Reading reading, const WaterTest& test,
                               const PlanningData& data) {
  const TestMethod* const method = method_of(key, test, data);
  if (method == nullptr) return std::nullopt;
  const auto row = method->rows.find(reading);
  if (row == method->rows.end()) return std::nullopt;
  return ErrorRow{method, &row->second, reading, *test.value(key)};
}

/// Combined chlorine of a total is a difference of two readings; without free chlorine beside it
/// the total is one, of the test that free chlorine has.
std::optional<ErrorRow> row_of_combined(const WaterTest& test, const PlanningData& data) {
  const std::string free_key(key_of(Reading::free_chlorine));
  const bool is_difference = test.value(free_key).has_value();
  const Reading as = is_difference ? Reading::combined_chlorine : Reading::free_chlorine;
  return row_at(total_chlorine_key, as, test, data);
}

/// A reading that a test may get wrong. pH and alkalinity are tests of their own: whichever is off,
/// the others are as read and inorganic carbon follows.
struct Fallible {
  Reading reading;
  double Readings::*member;
  bool may_be_none = false;  ///< a test may read too high of nothing
};

constexpr std::array<Fallible, 10> fallible = {{
    {Reading::ph, &Readings::ph},
    {Reading::total_alkalinity, &Readings::total_alkalinity_mg_l},
    {Reading::calcium_hardness, &Readings::calcium_hardness_mg_l},
    {Reading::free_chlorine, &Readings::free_chlorine_mg_l, true},
    {Reading::total_bromine, &Readings::total_bromine_mg_l, true},
    {Reading::combined_chlorine, &Readings::combined_chlorine_mg_l, true},
    {Reading::cyanuric_acid, &Readings::cyanuric_acid_mg_l, true},
    {Reading::copper, &Readings::copper_mg_l, true},
    {Reading::iron, &Readings::iron_mg_l, true},
    {Reading::manganese, &Readings::manganese_mg_l, true},
}};

/// The water of some readings, charge closed as the start's own is; nothing if there is none:
/// nearer to the reading there is one.
std::optional<Water> water_of(const Readings& readings, const SpeciesTable& species) {
  for (const Balance balance : {Balance::sodium, Balance::chloride}) {
    try {
      return water_from_readings(readings, balance, species);
    } catch (const Error&) {
      continue;
    }
  }
  return std::nullopt;
}

/// The water with a reading off by so much; nothing if there is none.
std::optional<Water> moved(const Readings& state, const Fallible& one, double by,
                           const SpeciesTable& species) {
  Readings readings = state;
  readings.*one.member += by;
  if (one.reading != Reading::ph && readings.*one.member < 0) return std::nullopt;
  return water_of(readings, species);
}

/// A reading that may be none at all: lower than that there is nothing, and a test says so.
std::optional<UncertainReading> off_from_none(const Fallible& one, double half_width,
                                              const Readings& state, const SpeciesTable& species) {
  const double none_below = state.*one.member / half_width;
  UncertainReading result{UncertainReading::Of::reading, one.reading, {}, {}};
  result.low_share = std::min(1.0, none_below);
  result.is_cut = none_below < seldom;
  if (result.is_cut) result.none_below = none_below;
  Readings least = state;
  least.*one.member = result.low_share < 1 ? 0 : state.*one.member - result.low_share * half_width;
  const auto low = water_of(least, species);
  const auto high = moved(state, one, half_width, species);
  if (!low || !high) return std::nullopt;
  result.low = *low;
  result.high = *high;
  return result;
}

/// Any other reading: nearer to what was read where the waters at the whole half-width cannot be.
std::optional<UncertainReading> off_by(const Fallible& one, double half_width,
                                       const Readings& state, const SpeciesTable& species) {
  if (one.may_be_none) {
    if (auto off = off_from_none(one, half_width, state, species)) return off;
  }
  UncertainReading result{UncertainReading::Of::reading, one.reading, {}, {}};
  for (int halved = 0; halved < 7; ++halved, result.share /= 2) {
    const auto low = moved(state, one, -result.share * half_width, species);
    const auto high = moved(state, one, result.share * half_width, species);
    if (!low || !high) continue;
    result.low = *low;
    result.high = *high;
    result.low_share = result.share;
    const double far = seldom * half_width;
    result.is_cut =
        result.share < 1 || !moved(state, one, -far, species) || !moved(state, one, far, species);
    return result;
  }
  // Nothing below it at all: soft water that reads none.
  const auto high = moved(state, one, half_width, species);
  if (!high) return std::nullopt;
  result.low = *water_of(state, species);
  result.high = *high;
  result.share = 1;
  result.low_share = 0;
  result.is_cut = true;
  return result;
}

/// An error that puts both hardnesses elsewhere, at its whole half-width or nearer; cut where the
/// outermost draws would have less than none of either.
std::optional<UncertainReading> off_in_hardness(UncertainReading::Of of,
                                                const std::function<void(Readings&, double)>& move,
                                                const Readings& state,
                                                const SpeciesTable& species) {
  const auto water_at = [&](double half_widths) -> std::optional<Water> {
    Readings readings = state;
    move(readings, half_widths);
    if (readings.calcium_hardness_mg_l < 0 || readings.magnesium_hardness_mg_l < 0) {
      return std::nullopt;
    }
    return water_of(readings, species);
  };
  UncertainReading result{of, std::nullopt, {}, {}};
  for (int halved = 0; halved < 7; ++halved, result.share /= 2) {
    const auto low = water_at(-result.share);
    const auto high = water_at(result.share);
    if (!low || !high) continue;
    result.low = *low;
    result.high = *high;
    result.low_share = result.share;
    result.is_cut = !water_at(-seldom) || !water_at(seldom);
    return result;
  }
  return std::nullopt;
}

/// What of the hardness is not known by a test of its own: the total's error goes to what was
/// worked out from it, and the assumed share of magnesium has its own.
void add_hardness_errors(const WaterTest& test, const PlanningData& data, const Readings& state,
                         const SpeciesTable& species, std::vector<UncertainReading>& uncertain) {
  const auto has = [&](const char* key) { return test.value(key).has_value(); };
  const bool has_calcium = has("calcium_hardness_mg_l");
  const bool has_magnesium = has("magnesium_hardness_mg_l");
  if (has_calcium && has_magnesium) return;
  const Assumed& share = data.assumptions.magnesium_share;
  const bool is_shared = !has_calcium && !has_magnesium;
  const auto add = [&](UncertainReading::Of of, const std::function<void(Readings&, double)>& by) {
    if (auto off = off_in_hardness(of, by, state, species)) uncertain.push_back(*off);
  };
  const TestMethod* const method = method_of(total_hardness_key, test, data);
  if (method != nullptr && method->total_hardness) {
    const double half_width =
        method->total_hardness->half_width_at(*test.value(total_hardness_key));
    add(UncertainReading::Of::total_hardness, [&](Readings& readings, double half_widths) {
      const double more = half_widths * half_width;
      const double magnesium = is_shared ? share.value : (has_calcium ? 1 : 0);
      readings.magnesium_hardness_mg_l += magnesium * more;
      readings.calcium_hardness_mg_l += (1 - magnesium) * more;
    });
  }
  if (has_magnesium || (has_calcium && has(total_hardness_key))) return;
  add(UncertainReading::Of::magnesium_share, [&](Readings& readings, double half_widths) {
    const double magnesium = share.value + half_widths * (share.high - share.low) / 2;
    double& calcium = readings.calcium_hardness_mg_l;
    const double total = has_calcium ? calcium / (1 - magnesium) : *test.value(total_hardness_key);
    if (!has_calcium) calcium = total * (1 - magnesium);
    readings.magnesium_hardness_mg_l = total * magnesium;
  });
}

/// A parabola through 0, the change `below` at -low, and `above` at high.
template <class T>
std::pair<T, T> parabola(const T& below, double low, const T& above, double high) {
  if (low <= 0) return {above * (1 / high), T{}};
  const T square = (above * (1 / high) + below * (1 / low)) * (1 / (low + high));
  return {above * (1 / high) + square * -high, square};
}

}  // namespace

ErrorShape::ErrorShape(const UncertainReading& error, const Water& at)
    : none_below_(error.none_below) {
  std::tie(linear_, square_) = parabola(error.low.totals - at.totals, error.low_share,
                                        error.high.totals - at.totals, error.share);
  const bool is_by_factors =
      error.of == UncertainReading::Of::judged || error.reading == Reading::ph;
  constexpr Component carbon = Component::carbonate;
  const double here = at.totals[carbon];
  // Where an end holds next to none of it, factors would reach from there to nothing.
  constexpr double most_factor = 30;
  const auto is_near = [&](const Water& water) {
    const double there = water.totals[carbon];
    return there > here / most_factor && there < here * most_factor;
  };
  const bool is_there = here > 0 && is_near(error.low) && is_near(error.high);
  if (!is_by_factors || !is_there) return;
  std::tie(log_linear_, log_square_) =
      parabola(std::log(error.low.totals[carbon] / here), error.low_share,
               std::log(error.high.totals[carbon] / here), error.share);
  linear_[carbon] = square_[carbon] = 0;
}

void ErrorShape::add_to(Totals& totals, double& log_carbon, double half_widths) const {
  const double u = none_below_ ? std::max(-*none_below_, half_widths) : half_widths;
  for (std::size_t i = 0; i < component_count; ++i) {
    totals.at(i) += linear_.at(i) * u + square_.at(i) * u * u;
  }
  log_carbon += log_linear_ * u + log_square_ * u * u;
}

std::optional<ErrorRow> error_row(Reading reading, const WaterTest& test,
                                  const PlanningData& data) {
  const std::string key(key_of(reading));
  const bool is_of_total = reading == Reading::combined_chlorine && !test.value(key);
  return is_of_total ? row_of_combined(test, data) : row_at(key, reading, test, data);
}

std::vector<UncertainReading> start_errors(const WaterTest& test, const Readings& state,
                                           const PlanningData& data, const SpeciesTable& species) {
  std::vector<UncertainReading> uncertain;
  for (const Fallible& one : fallible) {
    const auto row = error_row(one.reading, test, data);
    if (!row || row->half_width() <= 0) continue;
    if (auto off = off_by(one, row->half_width(), state, species)) uncertain.push_back(*off);
  }
  add_hardness_errors(test, data, state, species, uncertain);
  return uncertain;
}

}  // namespace tub::planning
