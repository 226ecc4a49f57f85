#include "planning/water/normal_equations.h"

#include <cassert>
#include <cmath>

namespace tub::planning {
namespace {

/// The inverse of a lower triangle.
SquareMatrix inverse_of_root(const SquareMatrix& root) {
  const std::size_t size = root.size();
  SquareMatrix result = identity_matrix(size);
  for (std::size_t column = 0; column < size; ++column) {
    for (std::size_t row = column; row < size; ++row) {
      double sum = result[row][column];
      for (std::size_t k = column; k < row; ++k) sum -= root[row][k] * result[k][column];
      result[row][column] = sum / root[row][row];
    }
  }
  return result;
}

}  // namespace

SquareMatrix identity_matrix(std::size_t size) {
  SquareMatrix matrix(size, std::vector<double>(size, 0.0));
  for (std::size_t i = 0; i < size; ++i) matrix[i][i] = 1;
  return matrix;
}

SquareMatrix cholesky_root(const SquareMatrix& matrix) {
  const std::size_t size = matrix.size();
  SquareMatrix root(size, std::vector<double>(size, 0.0));
  for (std::size_t row = 0; row < size; ++row) {
    for (std::size_t column = 0; column <= row; ++column) {
      double sum = matrix[row][column];
      for (std::size_t k = 0; k < column; ++k) sum -= root[row][k] * root[column][k];
      assert(row != column || sum > 0);
      root[row][column] = row == column ? std::sqrt(sum) : sum / root[column][column];
    }
  }
  return root;
}

SquareMatrix inverse(const SquareMatrix& matrix) {
  const SquareMatrix half = inverse_of_root(cholesky_root(matrix));
  const std::size_t size = matrix.size();
  SquareMatrix result(size, std::vector<double>(size, 0.0));
  for (std::size_t row = 0; row < size; ++row) {
    for (std::size_t column = 0; column < size; ++column) {
      for (std::size_t k = 0; k < size; ++k) {
        result[row][column] += half[k][row] * half[k][column];
      }
    }
  }
  return result;
}

double log_determinant(const SquareMatrix& matrix) {
  const SquareMatrix root = cholesky_root(matrix);
  double sum = 0;
  for (std::size_t i = 0; i < root.size(); ++i) sum += 2 * std::log(root[i][i]);
  return sum;
}

std::vector<double> product(const SquareMatrix& matrix, const std::vector<double>& vector) {
  std::vector<double> result(matrix.size(), 0.0);
  for (std::size_t row = 0; row < matrix.size(); ++row) {
    for (std::size_t k = 0; k < vector.size(); ++k) result[row] += matrix[row][k] * vector[k];
  }
  return result;
}

}  // namespace tub::planning
