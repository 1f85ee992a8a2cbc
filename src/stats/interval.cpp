#include <callfit/stats/interval.hpp>

#include <algorithm>
#include <cstddef>
#include <stdexcept>

namespace callfit {

double quantile_of(const std::vector<double>& sorted, double p) {
  const double place = p * static_cast<double>(sorted.size() - 1);
  const auto below = static_cast<std::size_t>(place);
  const std::size_t above = std::min(below + 1, sorted.size() - 1);
  return sorted[below] + (place - static_cast<double>(below)) * (sorted[above] - sorted[below]);
}

Interval interval90_of(std::vector<double> sample) {
  if (sample.empty()) throw std::invalid_argument("interval90_of: empty sample");
  std::sort(sample.begin(), sample.end());
  return {quantile_of(sample, 0.05), quantile_of(sample, 0.95)};
}

double median_of(std::vector<double> sample) {
  if (sample.empty()) throw std::invalid_argument("median_of: empty sample");
  std::sort(sample.begin(), sample.end());
  return quantile_of(sample, 0.5);
}

}  // namespace callfit
