// Numbers drawn from a seed, the same on every machine.
#pragma once

#include <cmath>
#include <cstdint>
#include <vector>

namespace tub::planning {

/// Numbers from a seed: splitmix64 (Steele, Lea & Flood 2014).
class Draw {
 public:
  explicit Draw(std::uint64_t seed) : state_(seed) {}
  double unit() { return static_cast<double>(next() >> 11U) * 0x1p-53; }
  double between(double low, double high) { return low + (high - low) * unit(); }
  /// Evenly over the logarithms: small values as often as large ones.
  double log_between(double low, double high) { return low * std::pow(high / low, unit()); }
  bool chance(double share) { return unit() < share; }
  template <class Row>
  const Row& one_of(const std::vector<Row>& rows) {
    return rows[static_cast<std::size_t>(unit() * static_cast<double>(rows.size()))];
  }

 private:
  std::uint64_t next() {
    state_ += 0x9E3779B97F4A7C15U;
    std::uint64_t z = state_;
    z = (z ^ (z >> 30U)) * 0xBF58476D1CE4E5B9U;
    z = (z ^ (z >> 27U)) * 0x94D049BB133111EBU;
    return z ^ (z >> 31U);
  }
  std::uint64_t state_;
};

}  // namespace tub::planning
