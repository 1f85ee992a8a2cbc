// Beta and Dirichlet distributions: quantiles through Boost.Math, draws through Boost.Random.
#pragma once

#include <callfit/base/random.hpp>
#include <callfit/stats/interval.hpp>

#include <cstddef>
#include <vector>

namespace callfit {

/// Beta(a, b) on (0, 1); a, b > 0.
struct Beta {
  double a = 1;
  double b = 1;

  double mean() const { return a / (a + b); }
  double strength() const { return a + b; }
  double variance() const { return mean() * (1 - mean()) / (strength() + 1); }

  static Beta of_mean(double mean, double strength) {
    return {mean * strength, (1 - mean) * strength};
  }
  /// The Beta with this mean in (0, 1) and this variance, 0 < variance < mean (1 - mean).
  static Beta of_moments(double mean, double variance);
};

/// The value below which a share `p` in [0, 1] of the distribution lies.
double quantile(const Beta& beta, double p);

/// P(X <= x), x in [0, 1].
double cdf(const Beta& beta, double x);

/// Ends of the central 90%.
Interval interval90(const Beta& beta);

/// log B(a, b), for marginal likelihoods.
double log_beta_function(double a, double b);

double draw(const Beta& beta, Stream& stream);

/// One draw of probabilities with Dirichlet parameters `alpha` (all > 0); sums to 1. Small
/// parameters are drawn on the log scale (gamma(a) = gamma(a + 1) U^(1/a), Marsaglia & Tsang 2000),
/// so that they never all underflow.
std::vector<double> draw_dirichlet(const std::vector<double>& alpha, Stream& stream);

/// Points and weights of a probability distribution; weights sum to 1.
struct Nodes {
  std::vector<double> at;
  std::vector<double> weight;

  std::size_t size() const { return at.size(); }
};

/// Gauss-Jacobi rule of `count` points for expectations under Beta(a, b), exact for polynomials of
/// degree below 2 count (Golub & Welsch 1969).
Nodes beta_nodes(const Beta& beta, std::size_t count);

}  // namespace callfit
