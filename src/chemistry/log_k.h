// An equilibrium constant over temperature.
#pragma once

#include <array>
#include <cmath>

#include "units/temperature.h"

namespace tub::chemistry {

/// What the terms of LogK are multiplied by at one temperature.
struct LogKBasis {
  std::array<double, 6> terms;
};

/// 1, T, 1/T, log10 T, 1/T², T² with T in kelvin.
inline LogKBasis log_k_basis(Temperature temperature) {
  const double t = temperature.kelvin();
  return {{1, t, 1 / t, std::log10(t), 1 / (t * t), t * t}};
}

/// log10 K = a + b T + c/T + d log10 T + e/T² + f T² (docs/chemistry.md, equation 1). Adding two
/// of them is adding two reactions.
struct LogK {
  std::array<double, 6> coefficients{};

  double at(const LogKBasis& basis) const {
    double sum = 0;
    for (std::size_t i = 0; i < 6; ++i) sum += coefficients[i] * basis.terms[i];
    return sum;
  }
  double at(Temperature temperature) const { return at(log_k_basis(temperature)); }

  LogK& operator+=(const LogK& other) {
    for (std::size_t i = 0; i < 6; ++i) coefficients[i] += other.coefficients[i];
    return *this;
  }
  friend LogK operator*(LogK a, double factor) {
    for (double& coefficient : a.coefficients) coefficient *= factor;
    return a;
  }
};

}  // namespace tub::chemistry
