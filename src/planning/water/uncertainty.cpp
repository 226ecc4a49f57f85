#include "planning/water/uncertainty.h"

#include <algorithm>
#include <cmath>
#include <limits>

#include "planning/water/drawn_waters.h"

namespace tub::planning {
namespace {

const DoseMove* dose_of(const Move& move) {
  if (const auto* dose = std::get_if<DoseMove>(&move)) return dose;
  if (const auto* rounds = std::get_if<RoundsMove>(&move)) return &rounds->dose;
  return nullptr;
}

/// Supplies of the moves in order, each once. The order is that of the plan, so that sums are the
/// same on every run.
std::vector<const Supply*> supplies_of(std::span<const Move> moves) {
  std::vector<const Supply*> supplies;
  for (const Move& move : moves) {
    const DoseMove* dose = dose_of(move);
    if (dose == nullptr) continue;
    if (std::find(supplies.begin(), supplies.end(), dose->supply) == supplies.end()) {
      supplies.push_back(dose->supply);
    }
  }
  return supplies;
}

/// Changes at the ends of the whole half-width, from those as far out as waters are known.
ErrorEffect effect(double at, double low, double high, const Reached& reached) {
  if (reached.is_one_sided) return {low - at, high - at, true, false};
  const double above = (high - at) / reached.high;
  if (reached.low <= 0) return {-above, above, false, reached.is_cut};
  const double below = (low - at) / reached.low;
  const double square = (above + below) / (reached.low + reached.high);
  const double linear = above - square * reached.high;
  return {square - linear, square + linear, false, reached.is_cut};
}

ErrorSource::Kind kind_of(UncertainReading::Of of) {
  switch (of) {
    case UncertainReading::Of::total_hardness:
      return ErrorSource::Kind::total_hardness;
    case UncertainReading::Of::magnesium_share:
      return ErrorSource::Kind::magnesium_share;
    case UncertainReading::Of::refilled_share:
      return ErrorSource::Kind::refilled_share;
    case UncertainReading::Of::judged:
      return ErrorSource::Kind::judged;
    default:
      return ErrorSource::Kind::start_reading;
  }
}

/// As moments where they are a picture, else as draws.
template <class Draw>
Spread spread_from(double at, std::span<const ErrorEffect> effects, const Range& possible,
                   const Draw& draw) {
  Spread moments(at);
  for (const ErrorEffect& one : effects) moments.add(one);
  if (moments.is_trusted(possible)) return moments;
  std::vector<double> values = draw();
  return values.empty() ? moments : Spread::of_draws(at, std::move(values));
}

}  // namespace

void Branches::go(const Move& move) {
  moves_.push_back(move);
  const auto advance = [&](End& end) { end.water = bench_->after(end.water, move, end.scale); };
  advance(planned_);
  for (Source& source : sources_) {
    advance(source.low);
    advance(source.high);
  }
}

Water Branches::water_of(const End& end, const Move* last) const {
  return last == nullptr ? end.water : bench_->after(end.water, *last, end.scale);
}

std::vector<Water> Branches::drawn(std::span<const ErrorEffect> effects, const Move* last) const {
  std::vector<DoseError> volume;
  std::vector<DoseError> supplies;
  for (const Source& source : sources_) {
    const DoseError dose{source.what.supply, source.low.scale.factor, source.high.scale.factor,
                         source.reached.is_one_sided};
    if (source.what.kind == ErrorSource::Kind::volume) volume.push_back(dose);
    if (source.what.supply != nullptr) supplies.push_back(dose);
  }
  std::vector<Move> moves = moves_;
  if (last != nullptr) moves.push_back(*last);
  return drawn_waters({*start_, volume, supplies, moves}, effects, *bench_);
}

Spread Branches::spread_of(Reading reading, const Move* last) const {
  const auto value = [&](const End& end) { return bench_->reading(reading, water_of(end, last)); };
  const double at = value(planned_);
  std::vector<ErrorEffect> effects;
  for (const Source& source : sources_) {
    const double low = value(source.low);
    effects.push_back(effect(at, low, value(source.high), source.reached));
  }
  return spread_from(at, effects, possible_range(key_of(reading)), [&] {
    std::vector<double> values;
    for (const Water& water : drawn(effects, last)) {
      values.push_back(bench_->reading(reading, water));
    }
    return values;
  });
}

Outcomes Branches::outcomes() const {
  Outcomes result{bench_->state(planned_.water), {}, {}};
  std::vector<ErrorEffect> on_ph;
  for (const Source& source : sources_) {
    const WaterState low = bench_->state(source.low.water);
    const WaterState high = bench_->state(source.high.water);
    on_ph.push_back(effect(result.at.ph, low.ph, high.ph, source.reached));
    result.ends.push_back({low, high, source.reached});
  }
  result.draw = [this, on_ph] {
    std::vector<WaterState> states;
    for (const Water& water : drawn(on_ph, nullptr)) states.push_back(bench_->state(water));
    return states;
  };
  return result;
}

Spread spread_of(const Outcomes& outcomes, const Range& possible,
                 const std::function<double(const WaterState&)>& number) {
  const double at = number(outcomes.at);
  std::vector<ErrorEffect> effects;
  for (const Outcomes::Ends& ends : outcomes.ends) {
    effects.push_back(effect(at, number(ends.low), number(ends.high), ends.reached));
  }
  return spread_from(at, effects, possible, [&] {
    if (outcomes.drawn.empty()) outcomes.drawn = outcomes.draw();
    std::vector<double> values;
    for (const WaterState& state : outcomes.drawn) values.push_back(number(state));
    return values;
  });
}

Range possible_range(std::string_view key) {
  constexpr double endless = std::numeric_limits<double>::infinity();
  // What no tub's water leaves: a hundredth of a mole of strong acid or base has pH 2 or 12.
  if (key == key_of(Reading::ph)) return {2, 12};
  if (key == "hobr_fraction") return {0, 1};
  const bool has_a_sign = key == "saturation_index" || key == "log10_pco2_atm" ||
                          key == "carbonate_alkalinity_mg_l" || key == "cyanurate_alkalinity_mg_l";
  return has_a_sign ? Range{-endless, endless} : Range{0, endless};
}

Spread Branches::spread(std::string_view key, const Outcomes& outcomes) const {
  const auto reading = reading_named(key);
  const bool is_quick =
      reading && (*reading == Reading::ph || bench_->counted(*reading, planned_.water));
  if (is_quick) return spread(*reading);
  const auto find = [&](const auto& keys) -> std::function<double(const WaterState&)> {
    for (const auto& one : keys) {
      if (one.name == key) return [=](const WaterState& state) { return state.*one.member; };
    }
    return nullptr;
  };
  auto number = find(reading_keys);
  if (!number) number = find(derived_keys);
  return planning::spread_of(outcomes, possible_range(key), number);
}

std::map<std::string, Range> ranges_of(const Branches& branches, const Outcomes& outcomes) {
  std::map<std::string, Range> ranges;
  const auto add = [&](std::string_view name, auto member) {
    if (!std::isfinite(outcomes.at.*member)) return;
    const Interval interval = branches.spread(name, outcomes).interval();
    ranges[std::string(name)] = {interval.low, interval.high};
  };
  for (const auto& key : reading_keys) add(key.name, key.member);
  for (const auto& key : derived_keys) add(key.name, key.member);
  return ranges;
}

std::vector<NamedEffect> Branches::effects(double WaterState::*number) const {
  const auto at = [&](const End& end) { return bench_->state(end.water).*number; };
  const double planned = at(planned_);
  std::vector<NamedEffect> effects;
  for (const Source& source : sources_) {
    effects.push_back(
        {source.what, effect(planned, at(source.low), at(source.high), source.reached)});
  }
  return effects;
}

void Uncertainty::add_supply(const Supply& supply, Branches& branches) const {
  const Product& product = supply.product();
  const auto add = [&](ErrorSource::Kind kind, double half_width, const Range& scales) {
    branches.sources_.push_back({{start_->water, {scales.low, &supply}},
                                 {start_->water, {scales.high, &supply}},
                                 {1, 1, kind == ErrorSource::Kind::staleness},
                                 {kind, Reading::ph, &supply, half_width}});
  };
  const auto add_two_sided = [&](ErrorSource::Kind kind, double half_width) {
    if (half_width > 0) add(kind, half_width, {1 - half_width, 1 + half_width});
  };
  add_two_sided(ErrorSource::Kind::strength, product.strength_half_width);
  if (product.dissolves) {
    const Interval& rate = product.dissolves->g_per_day;
    add(ErrorSource::Kind::dissolving, (rate.high - rate.low) / 2 / rate.value,
        {rate.low / rate.value, rate.high / rate.value});
  }
  const auto spoon = spoons_.find(&supply);
  if (spoon != spoons_.end()) add_two_sided(ErrorSource::Kind::spoon, spoon->second);
  if (product.strength_loss > 0) {
    add(ErrorSource::Kind::staleness, product.strength_loss,
        {1 - product.strength_loss / 2, 1 - product.strength_loss});
  }
}

Branches Uncertainty::at_start(std::span<const Move> moves) const {
  Branches branches(*start_, *bench_);
  if (volume_ > 0) {
    branches.sources_.push_back({{start_->water, {1 / (1 - volume_), nullptr}},
                                 {start_->water, {1 / (1 + volume_), nullptr}},
                                 {},
                                 {ErrorSource::Kind::volume, Reading::ph, nullptr, volume_}});
  }
  for (const UncertainReading& uncertain : start_->uncertain) {
    branches.sources_.push_back({{uncertain.low, {}},
                                 {uncertain.high, {}},
                                 {uncertain.low_share, uncertain.share, false, uncertain.is_cut},
                                 {kind_of(uncertain.of), uncertain.reading.value_or(Reading::ph)}});
  }
  for (const Supply* supply : supplies_of(moves)) add_supply(*supply, branches);
  return branches;
}

Branches Uncertainty::after(std::span<const Move> moves) const {
  Branches branches = at_start(moves);
  for (const Move& move : moves) branches.go(move);
  return branches;
}

}  // namespace tub::planning
