// Regressions and means whose standard errors take the cases of one man as one cluster.
#pragma once

#include <Eigen/Core>

#include <cstddef>
#include <string>
#include <utility>
#include <vector>

namespace callfit {

/// Both of them have mean 0 (or are taken as they are): no constant is fitted.
struct LeastSquares {
  Eigen::VectorXd weights, errors;  ///< one a column; errors clustered (Liang & Zeger 1986)
  double correlation = 0;           ///< of what is fitted with what was seen
};

/// `cases` has a row for each case and fewer columns than rows, independent of each other.
LeastSquares least_squares(const Eigen::MatrixXd& cases, const Eigen::VectorXd& seen,
                           const std::vector<std::string>& cluster);

/// Plain correlation, 0 where one does not vary.
double correlation_of(const Eigen::VectorXd& a, const Eigen::VectorXd& b);

/// A value of each pair of men, whose mean's standard error is wanted.
struct PairValue {
  std::pair<std::string, std::string> men;
  double value = 0;
};

/// Pairs that share a man are not independent of each other (Fafchamps & Gubert 2007). 0 of fewer
/// than two pairs.
double error_of_mean(const std::vector<PairValue>& pairs);

}  // namespace callfit
