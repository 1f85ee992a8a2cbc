#include <callfit/stats/interval.hpp>

#include <algorithm>
#include <cstddef>
#include <stdexcept>
#include <utility>

namespace callfit {

double quantile_of(const std::vector<double>& sorted, double p) {
  const double place = p * static_cast<double>(sorted.size() - 1);
  const auto below = static_cast<std::size_t>(place);
  const std::size_t above = std::min(below + 1, sorted.size() - 1);
  return sorted[below] + (place - static_cast<double>(below)) * (sorted[above] - sorted[below]);
}

Interval interval90_of(std::vector<double> sample) {
  if (sample.empty()) throw std::invalid_argument("interval90_of: empty sample");
  const auto [low, high] = quantiles_of(std::move(sample), std::array{0.05, 0.95});
  return {low, high};
}

double median_of(std::vector<double> sample) {
  if (sample.empty()) throw std::invalid_argument("median_of: empty sample");
  return quantiles_of(std::move(sample), std::array{0.5}).front();
}

}  // namespace callfit
