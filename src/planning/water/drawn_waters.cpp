#include "planning/water/drawn_waters.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <optional>

#include "planning/water/draws.h"

namespace tub::planning {
namespace {

/// The bend of a factor's logarithm, of its slope: more of a source is more throughout the draws.
constexpr double most_bend = 1 / (2 * outermost_draw);

/// One draw: how far out every source is, in half-widths.
class Draw {
 public:
  Draw(const DrawnFrom& from, std::span<const double> half_widths)
      : from_(from), half_widths_(half_widths) {}

  /// Water of which no total is less than nothing; nothing where the slip would mean that.
  std::optional<Water> start(std::span<const ErrorShape> shapes) const {
    Water water = from_.start.water;
    const Totals& planned = from_.start.water.totals;
    double log_carbon = 0;
    const std::size_t first = from_.volume.size();
    for (std::size_t i = 0; i < shapes.size(); ++i) {
      shapes[i].add_to(water.totals, log_carbon, half_widths_[first + i]);
    }
    water.totals[Component::carbonate] *= std::exp(log_carbon);
    for (std::size_t i = 0; i < component_count; ++i) {
      // Acid water that was read as such may be more so.
      const bool may_be_below =
          static_cast<Component>(i) == Component::alkalinity && planned.at(i) <= 0;
      if (may_be_below) continue;
      const bool has_to_be_there = planned.at(i) > 0 && !may_be_none(static_cast<Component>(i));
      if (water.totals.at(i) < 0 || (has_to_be_there && water.totals.at(i) <= 0)) {
        return std::nullopt;
      }
    }
    return water;
  }

  Water after(Water water, const Bench& bench, std::size_t starts) const {
    for (const Move& move : from_.moves) {
      water = bench.after(water, move, {factor(supply_of(move), starts), nullptr});
    }
    return water;
  }

 private:
  static bool may_be_none(Component component) {
    constexpr std::array none = {Component::chlorine,  Component::bromine,
                                 Component::cyanurate, Component::combined_chlorine,
                                 Component::copper,    Component::iron,
                                 Component::manganese, Component::copper_held,
                                 Component::iron_held, Component::manganese_held};
    return std::find(none.begin(), none.end(), component) != none.end();
  }

  static const Supply* supply_of(const Move& move) {
    if (const auto* dose = std::get_if<DoseMove>(&move)) return dose->supply;
    if (const auto* rounds = std::get_if<RoundsMove>(&move)) return rounds->dose.supply;
    return nullptr;
  }

  double factor(const Supply* supply, std::size_t starts) const {
    if (supply == nullptr) return 1;
    double factor = from_.volume.empty() ? 1 : from_.volume.front().at(half_widths_.front());
    const std::size_t first = from_.volume.size() + starts;
    for (std::size_t i = 0; i < from_.supplies.size(); ++i) {
      if (from_.supplies[i].only == supply) {
        factor *= from_.supplies[i].at(half_widths_[first + i]);
      }
    }
    return factor;
  }

  const DrawnFrom& from_;
  std::span<const double> half_widths_;
};

}  // namespace

double DoseError::at(double half_widths) const {
  const double at_low = std::log(low);
  const double at_high = std::log(high);
  if (is_one_sided) {
    const double u = std::abs(half_widths);
    const double square = 2 * at_high - 4 * at_low;
    return std::exp((at_high - square) * u + square * u * u);
  }
  const double linear = (at_high - at_low) / 2;
  const double bend = std::abs(linear) * most_bend;
  const double square = std::clamp((at_high + at_low) / 2, -bend, bend);
  return std::exp(linear * half_widths + square * half_widths * half_widths);
}

std::vector<Water> drawn_waters(const DrawnFrom& from, std::span<const ErrorEffect> effects,
                                const Bench& bench) {
  std::vector<double> direction;
  for (const ErrorEffect& effect : effects) direction.push_back(effect.slope());
  const Draws draws(direction);
  std::vector<ErrorShape> shapes;
  for (const UncertainReading& error : from.start.uncertain) {
    shapes.emplace_back(error, from.start.water);
  }
  std::vector<Water> waters;
  std::vector<double> half_widths(effects.size());
  for (std::size_t i = 0; i < draw_count; ++i) {
    draws.normals(i, half_widths);
    for (double& one : half_widths) one /= z_90;
    const Draw draw(from, half_widths);
    if (const auto start = draw.start(shapes)) {
      waters.push_back(draw.after(*start, bench, shapes.size()));
    }
  }
  return waters;
}

}  // namespace tub::planning
