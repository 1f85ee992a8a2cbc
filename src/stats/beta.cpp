#include <callfit/stats/beta.hpp>

#include <boost/math/special_functions/beta.hpp>
#include <boost/math/special_functions/gamma.hpp>
#include <boost/random/gamma_distribution.hpp>

#include <algorithm>
#include <cmath>
#include <numeric>

namespace callfit {
namespace {

double log_of_gamma_draw(double shape, Stream& stream) {
  boost::random::gamma_distribution<double> gamma(shape < 1 ? shape + 1 : shape);
  const double log_draw = std::log(gamma(stream));
  if (shape >= 1) return log_draw;
  return log_draw + std::log1p(-stream.uniform()) / shape;
}

}  // namespace

Beta Beta::of_moments(double mean, double variance) {
  return of_mean(mean, mean * (1 - mean) / variance - 1);
}

double quantile(const Beta& beta, double p) { return boost::math::ibeta_inv(beta.a, beta.b, p); }

double cdf(const Beta& beta, double x) { return boost::math::ibeta(beta.a, beta.b, x); }

Interval interval90(const Beta& beta) { return {quantile(beta, 0.05), quantile(beta, 0.95)}; }

double log_beta_function(double a, double b) {
  using boost::math::lgamma;  // that of the standard library is not safe between threads
  return lgamma(a) + lgamma(b) - lgamma(a + b);
}

double draw(const Beta& beta, Stream& stream) {
  const double log_a = log_of_gamma_draw(beta.a, stream);
  const double log_b = log_of_gamma_draw(beta.b, stream);
  return 1 / (1 + std::exp(log_b - log_a));
}

std::vector<double> draw_dirichlet(const std::vector<double>& alpha, Stream& stream) {
  std::vector<double> share;
  share.reserve(alpha.size());
  for (const double shape : alpha) share.push_back(log_of_gamma_draw(shape, stream));
  const double largest = *std::max_element(share.begin(), share.end());
  for (double& value : share) value = std::exp(value - largest);
  const double total = std::accumulate(share.begin(), share.end(), 0.0);
  for (double& value : share) value /= total;
  return share;
}

}  // namespace callfit
