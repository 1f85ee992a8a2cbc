// Distances in units of spread, with correlation.
#pragma once

#include <vector>

namespace callfit {

/// Square, row by row.
using Matrix = std::vector<std::vector<double>>;

/// x' C^-1 x (Mahalanobis 1936) for a symmetric positive definite C; x and C of one size. Throws
/// std::invalid_argument when C is not so.
double mahalanobis_squared(const std::vector<double>& x, const Matrix& covariance);

/// Whether a matrix is square, symmetric (to 1e-12) and positive definite.
bool is_covariance(const Matrix& matrix);

struct ShortfallDistance {
  double squared = 0;
  std::vector<double> part;  ///< adds up to `squared`
};

/// How far one must move, in the Mahalanobis sense, until nothing is short any more:
/// min u' R^-1 u over u >= short_by, where `short_by` is positive for what is missing and negative
/// for what is left over (the distance behind one-sided tests: Kudo 1963, Perlman 1969). With R
/// the identity it is the sum of the squared positive entries; where all bounds bind it is the
/// Mahalanobis form; being less short never makes it larger. part[i] = lambda[i] short_by[i] with
/// the multipliers of the bounds.
ShortfallDistance shortfall_distance(const std::vector<double>& short_by,
                                     const Matrix& correlation);

}  // namespace callfit
