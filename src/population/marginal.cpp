// The shape of one quantity's posterior.
#include <callfit/population/posterior.hpp>
#include <callfit/stats/logit.hpp>
#include <population/skewed.hpp>

#include <array>
#include <cmath>

namespace callfit {
namespace {

/// Below this skewness a log-normal cannot be told from a normal.
constexpr double no_skewness = 1e-4;

// exp(s^2) of the log-normal with that skewness: w - 1 = y with (y + 3)^2 y = skewness^2 has one
// positive root, found by Newton's method from below.
double growth(double skewness) {
  const double square = skewness * skewness;
  double y = square / 9;
  for (int round = 0; round < 50; ++round) {
    const double off = (y + 3) * (y + 3) * y - square;
    const double step = off / ((y + 3) * (3 * y + 3));
    y -= step;
    if (std::abs(step) < 1e-15 * y) break;
  }
  return 1 + y;
}

}  // namespace

Skewed::Skewed(const Marginal& marginal) : mean_(marginal.mean), scale_(marginal.sd) {
  if (std::abs(marginal.skewness) < no_skewness) return;
  const double w = growth(marginal.skewness);
  const double side = marginal.skewness > 0 ? 1 : -1;
  bend_ = side * std::sqrt(std::log(w));
  lift_ = std::log(w) / 2;
  scale_ = side * marginal.sd / std::sqrt(w - 1);
}

double Marginal::at(double score) const { return Skewed(*this).at(score); }

double mean_rate(double threshold, const Marginal& marginal) {
  // The trapezoidal rule over scores converges faster than any power of the step.
  constexpr int half = 24;
  constexpr double step = 0.25;
  const Skewed value(marginal);
  double sum = 0;
  double total = 0;
  for (int i = -half; i <= half; ++i) {
    const double score = step * i;
    const double weight = std::exp(-score * score / 2);
    sum += weight * logistic(threshold + value.at(score));
    total += weight;
  }
  return sum / total;
}

double threshold_of_mean(double mean, double spread) {
  constexpr int most_rounds = 60;
  constexpr double close = 1e-13;
  const Marginal population{0, spread, 0};
  double threshold = logit(mean);
  for (int round = 0; round < most_rounds; ++round) {
    const double step = logit(mean_rate(threshold, population)) - logit(mean);
    threshold -= step;
    if (std::abs(step) < close) break;
  }
  return threshold;
}

}  // namespace callfit
