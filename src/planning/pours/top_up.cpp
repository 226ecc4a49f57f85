#include "planning/pours/top_up.h"

#include <algorithm>
#include <array>
#include <cmath>

#include "planning/pours/divisions.h"
#include "planning/pours/pouring.h"
#include "planning/situation.h"

namespace tub::planning {
namespace {

constexpr int most_rows = 3;
/// How long a sanitizer that moves by itself is left before it is tested again. Common practice, no
/// source.
constexpr double hours_until_it_moves = 24;
/// A share of the water to change is said in steps of this.
constexpr double replace_grain = 0.05;

/// A reading, the steps in which its rows stand, and the least and most that a row may read.
/// Common practice, no source: what strips and kits show, and where people call.
struct Rows {
  Reading reading;
  double step;
  Range reach;
};
constexpr std::array row_steps = {
    Rows{Reading::total_alkalinity, 20, {20, 300}}, Rows{Reading::ph, 0.2, {6.6, 8.6}},
    Rows{Reading::free_chlorine, 1, {0, 10}},       Rows{Reading::total_bromine, 2, {0, 20}},
    Rows{Reading::calcium_hardness, 50, {0, 600}},
};

void set_reading(Reading reading, double value, Readings& readings) {
  switch (reading) {
    case Reading::ph:
      readings.ph = value;
      break;
    case Reading::total_alkalinity:
      readings.total_alkalinity_mg_l = value;
      break;
    case Reading::calcium_hardness:
      readings.calcium_hardness_mg_l = value;
      break;
    case Reading::total_bromine:
      readings.total_bromine_mg_l = value;
      break;
    default:
      readings.free_chlorine_mg_l = value;
      break;
  }
}

/// Nothing if no such water can exist: then no test shows it.
std::optional<Water> water_reading(Reading reading, double value, const WaterState& final,
                                   const SpeciesTable& species) {
  Readings readings = final;
  set_reading(reading, value, readings);
  for (const Balance balance : {Balance::sodium, Balance::chloride}) {
    try {
      return water_from_readings(readings, balance, species);
    } catch (const Error&) {
      continue;
    }
  }
  return std::nullopt;
}

double aim_of(const Goal& goal, double step) {
  if (goal.ideal) return *goal.ideal;
  if (goal.band.low && goal.band.high) return (*goal.band.low + *goal.band.high) / 2;
  return goal.band.low ? *goal.band.low + step : *goal.band.high - step;
}

class TopUpMaker {
 public:
  TopUpMaker(const Situation& situation, const WaterState& final)
      : situation_(situation), bench_(situation.bench), final_(final) {}

  std::optional<TopUpReading> make(const Rows& rows) {
    const Goal* const goal = situation_.goal(rows.reading);
    if (goal == nullptr || (!goal->band.low && !goal->band.high)) return std::nullopt;
    const bool is_sanitizer =
        rows.reading == Reading::free_chlorine || rows.reading == Reading::total_bromine;
    if (is_sanitizer && rows.reading != situation_.sanitizer.reading) return std::nullopt;
    rows_ = rows;
    goal_ = goal;
    step_ = step_of_rows();
    TopUpReading result{rows.reading, goal->band, {}, {}, {}};
    const auto target = situation_.targets.readings.find(rows.reading);
    if (is_sanitizer && target != situation_.targets.readings.end()) {
      result.between_uses = {target->second.low, target->second.high};
    }
    result.low = low_side();
    result.high = high_side();
    return result;
  }

 private:
  /// Whole divisions of the owner's test, at least the usual step.
  double step_of_rows() const {
    const auto& shown = situation_.request.retest_with.rows;
    const auto row = shown.find(rows_.reading);
    if (row == shown.end()) return rows_.step;
    return division_up(rows_.step, row->second.division);
  }

  std::vector<double> values_below() const {
    std::vector<double> values;
    if (!goal_->band.low) return values;
    double value = division_down(*goal_->band.low, step_);
    if (value > *goal_->band.low - 1e-9) value = division_down(value - step_ / 2, step_);
    while (values.size() < most_rows && value > rows_.reach.low - 1e-9) {
      values.push_back(value);
      value = division_nearest(value - step_, step_);
    }
    return values;
  }

  std::vector<double> values_above() const {
    std::vector<double> values;
    if (!goal_->band.high) return values;
    double value = division_up(*goal_->band.high, step_);
    if (value < *goal_->band.high + 1e-9) value = division_up(value + step_ / 2, step_);
    while (values.size() < most_rows && value < rows_.reach.high + 1e-9) {
      values.push_back(value);
      value = division_nearest(value + step_, step_);
    }
    return values;
  }

  TopUpSide low_side() const {
    switch (rows_.reading) {
      case Reading::total_alkalinity:
        return side(situation_.mildest(Purpose::raise_alkalinity), values_below());
      case Reading::ph:
        return side(situation_.mildest(Purpose::raise_ph), values_below());
      case Reading::calcium_hardness:
        return side(situation_.mildest(Purpose::raise_calcium), values_below());
      default:
        return sanitizer_side();
    }
  }

  TopUpSide high_side() const {
    switch (rows_.reading) {
      case Reading::total_alkalinity:
      case Reading::ph:
        return side(situation_.mildest(Purpose::lower_ph), values_above());
      case Reading::calcium_hardness:
        return replacing();
      default:
        return waiting(values_above(), goal_->band.high.value_or(0));
    }
  }

  /// The first product of the shelf that raises the sanitizer in this water.
  const Supply* sanitizer_supply() const {
    const auto raises = [&](const Supply& supply) {
      const auto water = water_reading(rows_.reading, 0, final_, bench_.species());
      return water && per_mg(supply, *water) > 1e-6;
    };
    const Supply* const first = situation_.first_of(situation_.sanitizer.products);
    if (first != nullptr && raises(*first)) return first;
    for (const Supply& supply : situation_.supplies()) {
      const bool is_fit = supply.product().can(Purpose::sanitize_chlorine) ||
                          supply.product().can(Purpose::sanitize_bromine) ||
                          supply.product().can(Purpose::oxidise);
      if (is_fit && situation_.may_use(supply.product()) && raises(supply)) return &supply;
    }
    return nullptr;
  }

  double per_mg(const Supply& supply, const Water& water) const {
    constexpr double trial_mg_l = 1;
    const double before = bench_.reading(rows_.reading, water);
    return (bench_.reading(rows_.reading, supply.add_to(water, trial_mg_l)) - before) / trial_mg_l;
  }

  TopUpSide side(const Supply* supply, const std::vector<double>& values) const {
    TopUpSide result;
    if (supply == nullptr) return result;
    result.product = supply->product().id;
    for (const double value : values) {
      if (auto row = poured(*supply, value)) result.rows.push_back(std::move(*row));
    }
    return result;
  }

  /// mg/L of the product that bring the water to the aim.
  std::optional<double> wanted_mg_l(const Supply& supply, const Water& water) const {
    const double aim = aim_of(*goal_, step_);
    if (rows_.reading == Reading::ph) {
      constexpr Range search{1, 3000};
      return amount_for_ph(water, supply.per_mg_l(), aim, search, bench_);
    }
    const double each = per_mg(supply, water);
    if (each == 0) return std::nullopt;
    return (aim - bench_.reading(rows_.reading, water)) / each;
  }

  std::optional<TopUp> poured(const Supply& supply, double value) const {
    const auto water = water_reading(rows_.reading, value, final_, bench_.species());
    if (!water) return std::nullopt;
    const auto wanted = wanted_mg_l(supply, *water);
    if (!wanted || *wanted <= 0) return std::nullopt;
    const double most = largest(supply, *water, *wanted);
    const double size = situation_.size(supply, most);
    Measuring measuring(situation_.request.measure, supply.product(), size);
    Measuring::Amount amount = most < *wanted ? measuring.down(size) : measuring.nearest(size);
    if (!lands(supply, *water, amount.size)) amount = measuring.down(size);
    if (amount.size <= 0) amount = fine_amount(supply, size);
    if (amount.size <= 0) return std::nullopt;
    TopUp row;
    row.reads = value;
    row.portion = portion_of(supply, amount);
    row.leads_to = after(supply, *water, amount.size);
    row.is_most = most < *wanted;
    return row;
  }

  /// What one pour may bring: the product's own limit, and pH inside the window of a pour.
  double largest(const Supply& supply, const Water& water, double wanted) const {
    double most = wanted;
    const double limit = supply.product().single_addition_mg_l;
    if (limit > 0) most = std::min(most, limit);
    const Assumed& window = situation_.assumptions.pour_ph;
    return std::min(most, largest_pour(water, supply, most, {window.low, window.high}, bench_));
  }

  double after(const Supply& supply, const Water& water, double size) const {
    return bench_.reading(rows_.reading, supply.add_to(water, situation_.mg_l(supply, size)));
  }

  /// Whether the reading does not pass the far edge of its target.
  bool lands(const Supply& supply, const Water& water, double size) const {
    const double before = bench_.reading(rows_.reading, water);
    const double reached = after(supply, water, size);
    if (reached > before) return !goal_->band.high || reached <= *goal_->band.high;
    return !goal_->band.low || reached >= *goal_->band.low;
  }

  /// By a fine scale or a syringe, which show grams and millilitres whatever else the owner uses.
  static Measuring::Amount fine_amount(const Supply& supply, double size) {
    Measuring::Amount amount = Measuring::finely().down(size);
    const bool is_liquid = supply.product().form == Form::liquid;
    if (amount.size > 0) amount.measure = {{amount.size, is_liquid ? "ml" : "g"}};
    return amount;
  }

  static Portion portion_of(const Supply& supply, const Measuring::Amount& amount) {
    Portion portion;
    const bool is_liquid = supply.product().form == Form::liquid;
    (is_liquid ? portion.amount_ml : portion.amount_g) = amount.size;
    portion.measure = amount.measure;
    return portion;
  }

  /// Above its gate a sanitizer falls by itself, below it tablets make it rise by themselves.
  TopUpSide waiting(const std::vector<double>& values, double leads_to) const {
    TopUpSide result;
    const Supply* const supply = sanitizer_supply();
    result.is_floater = supply != nullptr && supply->product().form == Form::tablets;
    if (values.empty()) return result;
    TopUp row;
    // Below, the reading next to the gate; further below people call. Above, the highest.
    row.reads = leads_to < values.back() ? values.back() : values.front();
    row.wait_hours = hours_until_it_moves;
    row.leads_to = leads_to;
    result.rows.push_back(row);
    return result;
  }

  TopUpSide sanitizer_side() const {
    const Supply* const supply = sanitizer_supply();
    if (supply != nullptr && supply->product().form == Form::tablets) {
      return waiting(values_below(), goal_->band.low.value_or(0));
    }
    return side(supply, values_below());
  }

  /// Fresh water instead of some of it; none is known for a tub that was full from the start.
  TopUpSide replacing() const {
    TopUpSide result;
    if (situation_.request.water_is_in_tub) return result;
    const double fresh = situation_.start.state.calcium_hardness_mg_l;
    const double aim = aim_of(*goal_, step_);
    for (const double value : values_above()) {
      if (fresh >= aim || value <= aim) continue;
      TopUp row;
      row.reads = value;
      row.replace = division_up((value - aim) / (value - fresh), replace_grain);
      row.leads_to = value + *row.replace * (fresh - value);
      result.rows.push_back(row);
    }
    return result;
  }

  const Situation& situation_;
  const Bench& bench_;
  const WaterState& final_;
  Rows rows_{};
  const Goal* goal_ = nullptr;
  double step_ = 1;
};

}  // namespace

std::vector<TopUpReading> top_ups(const PlanRequest& request, const PlanningData& data,
                                  const SpeciesTable& species, const WaterState& final) {
  const Situation situation(request, data, species);
  std::vector<TopUpReading> readings;
  for (const Rows& rows : row_steps) {
    if (auto reading = TopUpMaker(situation, final).make(rows)) {
      readings.push_back(std::move(*reading));
    }
  }
  return readings;
}

}  // namespace tub::planning
