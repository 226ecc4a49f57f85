// Newton's method on the mass balances; for use inside the module only.
#pragma once

#include "chemistry/mass_balance.h"

namespace tub::chemistry {

/// A Cholesky factor of a symmetric positive definite matrix.
class Cholesky {
 public:
  /// REQUIRES: the leading size × size block is symmetric and positive definite; only its lower
  /// half is looked at.
  Cholesky(const Matrix& matrix, std::size_t size);
  /// Solves for one right-hand side, in place.
  void solve(Vector& right) const;

 private:
  Matrix lower_;    // below its diagonal
  Vector inverse_;  // of the diagonal
  std::size_t size_;
};

/// Solves the balances from their present start, activity coefficients included.
///
/// Returns: the number of Newton steps
/// Throws:  Error if the water is too concentrated for the activity model, or does not converge
int solve(MassBalance& balance);

}  // namespace tub::chemistry
