#include <callfit/stats/distance.hpp>

#include <Eigen/Cholesky>

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <stdexcept>
#include <utility>

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

constexpr Eigen::Index most_bounds = 8;  // solved at once; more are left to the rounds
using SmallMatrix =
    Eigen::Matrix<double, Eigen::Dynamic, Eigen::Dynamic, 0, most_bounds, most_bounds>;
using SmallVector = Eigen::Matrix<double, Eigen::Dynamic, 1, 0, most_bounds, 1>;

double left_over(const std::vector<double>& short_by, const Matrix& correlation,
                 const std::vector<double>& multiplier, std::size_t i) {
  double left = short_by[i];
  for (std::size_t j = 0; j < multiplier.size(); ++j)
    if (j != i) left -= correlation[i][j] * multiplier[j];
  return left;
}

// The dual, min 1/2 l'R l - l's over l >= 0, one coordinate after the other (Hildreth 1957).
// Returns the largest move.
double hildreth_round(const std::vector<double>& short_by, const Matrix& correlation,
                      std::vector<double>& multiplier) {
  double largest_move = 0;
  for (std::size_t i = 0; i < short_by.size(); ++i) {
    const double next =
        std::max(0.0, left_over(short_by, correlation, multiplier, i) / correlation[i][i]);
    largest_move = std::max(largest_move, std::abs(next - multiplier[i]));
    multiplier[i] = next;
  }
  return largest_move;
}

// If the bounds that bind now are those that bind in the end, their multipliers are solved for at
// once; whether they are.
bool finish(const std::vector<double>& short_by, const Matrix& correlation,
            std::vector<double>& multiplier) {
  std::array<std::size_t, most_bounds> binding{};
  Eigen::Index count = 0;
  for (std::size_t i = 0; i < multiplier.size(); ++i) {
    if (multiplier[i] <= 0) continue;
    if (count == most_bounds) return false;
    binding[static_cast<std::size_t>(count++)] = i;
  }
  SmallMatrix between(count, count);
  SmallVector bound(count);
  for (Eigen::Index a = 0; a < count; ++a) {
    bound(a) = short_by[binding[static_cast<std::size_t>(a)]];
    for (Eigen::Index b = 0; b < count; ++b)
      between(a, b) =
          correlation[binding[static_cast<std::size_t>(a)]][binding[static_cast<std::size_t>(b)]];
  }
  const SmallVector solved = between.llt().solve(bound);
  if (count > 0 && !(solved.minCoeff() > 0)) return false;
  std::vector<double> tried(multiplier.size(), 0.0);
  for (Eigen::Index a = 0; a < count; ++a) tried[binding[static_cast<std::size_t>(a)]] = solved(a);
  for (std::size_t i = 0; i < tried.size(); ++i)
    if (tried[i] == 0 && left_over(short_by, correlation, tried, i) > 0) return false;
  multiplier = std::move(tried);
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
  std::vector<double> multiplier(short_by.size(), 0.0);
  for (int round = 0; round < most_rounds; ++round)
    if (hildreth_round(short_by, correlation, multiplier) <= settled ||
        finish(short_by, correlation, multiplier))
      break;
  ShortfallDistance distance;
  distance.part = std::move(multiplier);
  for (std::size_t i = 0; i < short_by.size(); ++i) {
    distance.part[i] *= short_by[i];
    distance.squared += distance.part[i];
  }
  return distance;
}

}  // namespace callfit
