// Small symmetric systems of equations, as estimates from a few readings need them.
#pragma once

#include <cstddef>
#include <vector>

#include "base/modules.h"

namespace tub::planning {

/// A square matrix, row by row.
using SquareMatrix = std::vector<std::vector<double>>;

SquareMatrix identity_matrix(std::size_t size);

/// The lower triangle whose product with its own transpose is the matrix (Cholesky).
///
/// REQUIRES: symmetric and positive definite
SquareMatrix cholesky_root(const SquareMatrix& matrix);

/// The inverse of a symmetric, positive definite matrix.
SquareMatrix inverse(const SquareMatrix& matrix);

/// The natural logarithm of its determinant.
double log_determinant(const SquareMatrix& matrix);

/// matrix times vector
std::vector<double> product(const SquareMatrix& matrix, const std::vector<double>& vector);

}  // namespace tub::planning
