#include "planning/uncertainty.h"

#include <algorithm>
#include <cmath>
#include <functional>

namespace tub {
namespace {

/// Calls for every dose of the moves, those in rounds included.
void for_each_dose(std::span<Move> moves, const std::function<void(DoseMove&)>& call) {
  for (Move& move : moves) {
    if (auto* dose = std::get_if<DoseMove>(&move)) call(*dose);
    if (auto* rounds = std::get_if<RoundsMove>(&move)) call(rounds->dose);
  }
}

Draft scaled(std::span<const Move> moves, double factor, const Supply* only) {
  Draft draft(moves.begin(), moves.end());
  for_each_dose(draft, [&](DoseMove& dose) {
    if (only == nullptr || dose.supply == only) dose.mg_l *= factor;
  });
  return draft;
}

/// Supplies of the moves in order, each once. The order is that of the plan, so that sums are the
/// same on every run.
std::vector<const Supply*> supplies_of(std::span<const Move> moves) {
  Draft draft(moves.begin(), moves.end());
  std::vector<const Supply*> supplies;
  for_each_dose(draft, [&](const DoseMove& dose) {
    if (std::find(supplies.begin(), supplies.end(), dose.supply) == supplies.end()) {
      supplies.push_back(dose.supply);
    }
  });
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

void Uncertainty::add_supply_sources(std::span<const Move> moves,
                                     std::vector<Source>& sources) const {
  for (const Supply* supply : supplies_of(moves)) {
    const Product& product = supply->product();
    const auto add_two_sided = [&](double half_width) {
      if (half_width <= 0) return;
      sources.push_back({{start_->water, scaled(moves, 1 - half_width, supply)},
                         {start_->water, scaled(moves, 1 + half_width, supply)}});
    };
    add_two_sided(product.strength_half_width);
    const auto spoon = spoons_.find(supply);
    if (spoon != spoons_.end()) add_two_sided(spoon->second);
    if (product.strength_loss > 0) {
      sources.push_back({{start_->water, scaled(moves, 1 - product.strength_loss / 2, supply)},
                         {start_->water, scaled(moves, 1 - product.strength_loss, supply)},
                         1,
                         true});
    }
  }
}

std::vector<Uncertainty::Source> Uncertainty::sources(std::span<const Move> moves) const {
  std::vector<Source> sources;
  const Draft planned(moves.begin(), moves.end());
  if (volume_ > 0) {
    sources.push_back({{start_->water, scaled(moves, 1 / (1 - volume_), nullptr)},
                       {start_->water, scaled(moves, 1 / (1 + volume_), nullptr)}});
  }
  for (const UncertainReading& uncertain : start_->uncertain) {
    sources.push_back({{uncertain.low, planned}, {uncertain.high, planned}, uncertain.share});
  }
  add_supply_sources(moves, sources);
  return sources;
}

Water Uncertainty::outcome(const Case& one) const { return bench_->after(one.start, one.moves); }

Spread Uncertainty::spread(Reading reading, std::span<const Move> moves) const {
  const double at = bench_->reading(reading, bench_->after(start_->water, moves));
  Spread result(at);
  for (const Source& source : sources(moves)) {
    result.add(effect(at, bench_->reading(reading, outcome(source.low)),
                      bench_->reading(reading, outcome(source.high)), source.share,
                      source.is_one_sided));
  }
  return result;
}

std::map<std::string, Range> Uncertainty::ranges(std::span<const Move> moves) const {
  const WaterState at = bench_->state(bench_->after(start_->water, moves));
  std::vector<Source> all = sources(moves);
  std::vector<std::pair<WaterState, WaterState>> states;
  for (const Source& source : all) {
    states.emplace_back(bench_->state(outcome(source.low)), bench_->state(outcome(source.high)));
  }
  std::map<std::string, Range> ranges;
  const auto add = [&](std::string_view name, auto member) {
    if (!std::isfinite(at.*member)) return;
    Spread spread(at.*member);
    for (std::size_t i = 0; i < all.size(); ++i) {
      spread.add(effect(at.*member, states[i].first.*member, states[i].second.*member, all[i].share,
                        all[i].is_one_sided));
    }
    const Interval interval = spread.interval();
    ranges[std::string(name)] = {interval.low, interval.high};
  };
  for (const auto& key : reading_keys) add(key.name, key.member);
  for (const auto& key : derived_keys) add(key.name, key.member);
  return ranges;
}

}  // namespace tub
