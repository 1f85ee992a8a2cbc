#include <callfit/stats/distance.hpp>

#include <Eigen/Cholesky>

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <stdexcept>

namespace callfit {
namespace {

Eigen::MatrixXd as_eigen(const Matrix& matrix) {
  const auto n = static_cast<Eigen::Index>(matrix.size());
  Eigen::MatrixXd out(n, n);
  for (Eigen::Index i = 0; i < n; ++i)
    for (Eigen::Index j = 0; j < n; ++j)
      out(i, j) = matrix[static_cast<std::size_t>(i)][static_cast<std::size_t>(j)];
  return out;
}

bool is_symmetric(const Matrix& matrix) {
  constexpr double rounding = 1e-12;
  for (std::size_t i = 0; i < matrix.size(); ++i) {
    if (matrix[i].size() != matrix.size()) return false;
    for (std::size_t j = 0; j < i; ++j)
      if (!(std::abs(matrix[i][j] - matrix[j][i]) <= rounding)) return false;
  }
  return true;
}

}  // namespace

bool is_covariance(const Matrix& matrix) {
  if (!is_symmetric(matrix)) return false;
  return as_eigen(matrix).llt().info() == Eigen::Success;
}

double mahalanobis_squared(const std::vector<double>& x, const Matrix& covariance) {
  if (covariance.size() != x.size() || !is_covariance(covariance))
    throw std::invalid_argument(
        "mahalanobis_squared: needs a positive definite matrix of x's size");
  const Eigen::Map<const Eigen::VectorXd> v(x.data(), static_cast<Eigen::Index>(x.size()));
  return v.dot(as_eigen(covariance).llt().solve(v));
}

ShortfallDistance shortfall_distance(const std::vector<double>& short_by,
                                     const Matrix& correlation) {
  constexpr int most_rounds = 20'000;
  constexpr double settled = 1e-15;
  const std::size_t n = short_by.size();
  // The dual, min 1/2 l'R l - l's over l >= 0, one coordinate after the other (Hildreth 1957).
  std::vector<double> multiplier(n, 0.0);
  for (int round = 0; round < most_rounds; ++round) {
    double largest_move = 0;
    for (std::size_t i = 0; i < n; ++i) {
      double left = short_by[i];
      for (std::size_t j = 0; j < n; ++j)
        if (j != i) left -= correlation[i][j] * multiplier[j];
      const double next = std::max(0.0, left / correlation[i][i]);
      largest_move = std::max(largest_move, std::abs(next - multiplier[i]));
      multiplier[i] = next;
    }
    if (largest_move <= settled) break;
  }
  ShortfallDistance distance;
  for (std::size_t i = 0; i < n; ++i) {
    distance.part.push_back(multiplier[i] * short_by[i]);
    distance.squared += distance.part.back();
  }
  return distance;
}

}  // namespace callfit
