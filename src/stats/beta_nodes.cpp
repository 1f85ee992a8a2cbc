#include <callfit/stats/beta.hpp>

#include <Eigen/Eigenvalues>

#include <cmath>
#include <utility>

namespace callfit {
namespace {

// Recurrence of the Jacobi polynomials for the weight (1 - t)^alpha (1 + t)^beta on [-1, 1]
// (Abramowitz & Stegun 22.7): centre k and the square of the coupling between k - 1 and k.
double centre(double k, double alpha, double beta) {
  if (k == 0) return (beta - alpha) / (alpha + beta + 2);
  const double s = 2 * k + alpha + beta;
  return (beta * beta - alpha * alpha) / (s * (s + 2));
}

double coupling_squared(double k, double alpha, double beta) {
  const double s = 2 * k + alpha + beta;
  if (k == 1) return 4 * (1 + alpha) * (1 + beta) / (s * s * (s + 1));
  return 4 * k * (k + alpha) * (k + beta) * (k + alpha + beta) / (s * s * (s + 1) * (s - 1));
}

// 1 over the sum of squares of the orthonormal polynomials there (Abramowitz & Stegun 25.4.33,
// with the polynomials scaled).
double weight_at(double t, const Eigen::VectorXd& diagonal, const Eigen::VectorXd& beside) {
  double before = 0;
  double at = 1;
  double sum = 1;
  for (Eigen::Index k = 0; k < beside.size(); ++k) {
    const double coupled = k > 0 ? beside(k - 1) * before : 0;
    before = std::exchange(at, ((t - diagonal(k)) * at - coupled) / beside(k));
    sum += at * at;
  }
  return 1 / sum;
}

}  // namespace

Nodes beta_nodes(const Beta& beta, std::size_t count) {
  const auto n = static_cast<Eigen::Index>(count);
  Eigen::VectorXd diagonal(n);
  Eigen::VectorXd beside(n - 1);
  for (Eigen::Index k = 0; k < n; ++k) {
    const auto order = static_cast<double>(k);
    diagonal(k) = centre(order, beta.b - 1, beta.a - 1);
    if (k > 0) beside(k - 1) = std::sqrt(coupling_squared(order, beta.b - 1, beta.a - 1));
  }
  Eigen::SelfAdjointEigenSolver<Eigen::MatrixXd> solver;
  solver.computeFromTridiagonal(diagonal, beside, Eigen::EigenvaluesOnly);

  Nodes nodes;
  for (const double t : solver.eigenvalues()) {
    nodes.at.push_back((1 + t) / 2);
    nodes.weight.push_back(weight_at(t, diagonal, beside));
  }
  return nodes;
}

}  // namespace callfit
