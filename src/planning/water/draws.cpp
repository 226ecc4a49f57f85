#include "planning/water/draws.h"

#include <algorithm>
#include <cassert>
#include <cmath>
#include <cstdint>
#include <numeric>

#include "planning/water/spread.h"

namespace tub::planning {
namespace {

constexpr std::size_t most_sources = 160;
using Column = std::array<double, draw_count>;

/// splitmix64 (Steele, Lea & Flood 2014): an order without a pattern, the same on every machine.
class Mixer {
 public:
  std::uint64_t operator()() {
    state_ += 0x9E3779B97F4A7C15U;
    std::uint64_t z = state_;
    z = (z ^ (z >> 30U)) * 0xBF58476D1CE4E5B9U;
    z = (z ^ (z >> 27U)) * 0x94D049BB133111EBU;
    return z ^ (z >> 31U);
  }

 private:
  std::uint64_t state_ = 0;
};

/// The z that a share of a standard normal stays below, by halving.
double normal_quantile(double share) {
  double low = -8;
  double high = 8;
  for (int i = 0; i < 60; ++i) {
    const double middle = (low + high) / 2;
    (normal_share_below(middle) < share ? low : high) = middle;
  }
  return (low + high) / 2;
}

Column even_quantiles() {
  Column column{};
  for (std::size_t i = 0; i < draw_count; ++i) {
    column[i] = normal_quantile((static_cast<double>(i) + 0.5) / draw_count);
  }
  return column;
}

/// Draws in opposite pairs around the middle one: what is odd in every source averages to nothing.
Column shuffled(const Column& even, Mixer& mixer) {
  constexpr std::size_t half = draw_count / 2;
  std::array<std::size_t, half> order{};
  std::iota(order.begin(), order.end(), 0U);
  for (std::size_t i = half; i-- > 1;) std::swap(order[i], order[mixer() % (i + 1)]);
  Column column{};
  column[half] = even[half];
  for (std::size_t i = 0; i < half; ++i) {
    const std::size_t place = mixer() % 2 == 0 ? order[i] : draw_count - 1 - order[i];
    column[i] = even[place];
    column[draw_count - 1 - i] = even[draw_count - 1 - place];
  }
  return column;
}

const std::vector<Column>& hypercube() {
  static const std::vector<Column> columns = [] {
    const Column even = even_quantiles();
    Mixer mixer;
    std::vector<Column> result = {even};
    while (result.size() < most_sources) result.push_back(shuffled(even, mixer));
    return result;
  }();
  return columns;
}

double length(const std::vector<double>& vector) {
  return std::sqrt(std::inner_product(vector.begin(), vector.end(), vector.begin(), 0.0));
}

}  // namespace

Draws::Draws(std::vector<double> direction) : mirror_(std::move(direction)) {
  assert(mirror_.size() <= most_sources);
  const double long_is = length(mirror_);
  for (double& part : mirror_) part = long_is > 0 ? -part / long_is : 0;
  if (long_is > 0) mirror_.front() += 1;
  const double off = length(mirror_);
  for (double& part : mirror_) part = off > 1e-12 ? part / off : 0;
}

void Draws::normals(std::size_t index, std::span<double> by_source) const {
  const std::vector<Column>& columns = hypercube();
  double along = 0;
  for (std::size_t k = 0; k < by_source.size(); ++k) {
    by_source[k] = columns[k][index];
    along += mirror_[k] * by_source[k];
  }
  for (std::size_t k = 0; k < by_source.size(); ++k) by_source[k] -= 2 * along * mirror_[k];
}

double quantile_of(std::span<const double> sorted, double share) {
  const double place = share * static_cast<double>(sorted.size()) - 0.5;
  if (place <= 0) return sorted.front();
  const auto below = static_cast<std::size_t>(place);
  if (below + 1 >= sorted.size()) return sorted.back();
  const double part = place - static_cast<double>(below);
  // Not a blend where both are alike: without calcium the index is endless.
  if (sorted[below] == sorted[below + 1]) return sorted[below];
  return sorted[below] * (1 - part) + sorted[below + 1] * part;
}

double share_below(std::span<const double> sorted, double value) {
  const auto above = std::lower_bound(sorted.begin(), sorted.end(), value);
  if (above == sorted.begin()) return 0;
  if (above == sorted.end()) return 1;
  const double before = *std::prev(above);
  const double part = (value - before) / (*above - before);
  const auto count = static_cast<double>(above - sorted.begin());
  return (count - 0.5 + part) / static_cast<double>(sorted.size());
}

}  // namespace tub::planning
