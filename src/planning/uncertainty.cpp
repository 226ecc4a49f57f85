#include "planning/uncertainty.h"

#include <algorithm>
#include <cmath>

namespace tub {
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

/// Changes at the ends of the whole half-width, from those at a share of it.
ErrorEffect effect(double at, double low, double high, double share, bool is_one_sided) {
  const double a = (high - low) / (2 * share);
  const double b = (high + low - 2 * at) / (2 * share * share);
  if (is_one_sided) return {low - at, high - at, true};
  return {b - a, b + a, false};
}

}  // namespace

void Branches::go(const Move& move) {
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

Spread Branches::spread_of(Reading reading, const Move* last) const {
  const auto value = [&](const End& end) { return bench_->reading(reading, water_of(end, last)); };
  const double at = value(planned_);
  Spread result(at);
  for (const Source& source : sources_) {
    const double low = value(source.low);
    result.add(effect(at, low, value(source.high), source.share, source.is_one_sided));
  }
  return result;
}

Outcomes Branches::outcomes() const {
  Outcomes result{bench_->state(planned_.water), {}};
  for (const Source& source : sources_) {
    const WaterState low = bench_->state(source.low.water);
    result.ends.push_back(
        {low, bench_->state(source.high.water), source.share, source.is_one_sided});
  }
  return result;
}

Spread spread_of(const Outcomes& outcomes, const std::function<double(const WaterState&)>& number) {
  const double at = number(outcomes.at);
  Spread result(at);
  for (const Outcomes::Ends& ends : outcomes.ends) {
    result.add(effect(at, number(ends.low), number(ends.high), ends.share, ends.is_one_sided));
  }
  return result;
}

std::map<std::string, Range> ranges_of(const Outcomes& outcomes) {
  std::map<std::string, Range> ranges;
  const auto add = [&](std::string_view name, auto member) {
    if (!std::isfinite(outcomes.at.*member)) return;
    const Interval interval =
        spread_of(outcomes, [&](const WaterState& state) { return state.*member; }).interval();
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
    effects.push_back({source.what, effect(planned, at(source.low), at(source.high), source.share,
                                           source.is_one_sided)});
  }
  return effects;
}

void Uncertainty::add_supply(const Supply& supply, Branches& branches) const {
  const Product& product = supply.product();
  const auto add = [&](ErrorSource::Kind kind, double half_width, const Range& scales) {
    branches.sources_.push_back({{start_->water, {scales.low, &supply}},
                                 {start_->water, {scales.high, &supply}},
                                 1,
                                 kind == ErrorSource::Kind::staleness,
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
  Branches branches(start_->water, *bench_);
  if (volume_ > 0) {
    branches.sources_.push_back({{start_->water, {1 / (1 - volume_), nullptr}},
                                 {start_->water, {1 / (1 + volume_), nullptr}},
                                 1,
                                 false,
                                 {ErrorSource::Kind::volume, Reading::ph, nullptr, volume_}});
  }
  for (const UncertainReading& uncertain : start_->uncertain) {
    const auto kind =
        uncertain.reading ? ErrorSource::Kind::start_reading : ErrorSource::Kind::refilled_share;
    branches.sources_.push_back({{uncertain.low, {}},
                                 {uncertain.high, {}},
                                 uncertain.share,
                                 false,
                                 {kind, uncertain.reading.value_or(Reading::ph)}});
  }
  for (const Supply* supply : supplies_of(moves)) add_supply(*supply, branches);
  return branches;
}

Branches Uncertainty::after(std::span<const Move> moves) const {
  Branches branches = at_start(moves);
  for (const Move& move : moves) branches.go(move);
  return branches;
}

}  // namespace tub
