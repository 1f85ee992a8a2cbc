#include <callfit/stats/sobol.hpp>

#include <cmath>

namespace callfit {
namespace {

double common_mean(const std::vector<double>& y, const std::vector<double>& frozen) {
  double sum = 0;
  for (std::size_t s = 0; s < y.size(); ++s) sum += (y[s] + frozen[s]) / 2;
  return sum / static_cast<double>(y.size());
}

}  // namespace

SobolIndex sobol_index(const std::vector<double>& y, const std::vector<double>& frozen) {
  const auto n = static_cast<double>(y.size());
  const double mean = common_mean(y, frozen);
  double product = 0;
  double square = 0;
  for (std::size_t s = 0; s < y.size(); ++s) {
    const double a = y[s] - mean;
    const double b = frozen[s] - mean;
    product += a * b / n;
    square += (a * a + b * b) / 2 / n;
  }
  if (square <= 0) return {};
  SobolIndex index{product / square, 0};
  double spread = 0;
  for (std::size_t s = 0; s < y.size(); ++s) {
    const double a = y[s] - mean;
    const double b = frozen[s] - mean;
    const double off = a * b - index.first * (a * a + b * b) / 2;
    spread += off * off / n;
  }
  index.standard_error = std::sqrt(spread / n) / square;
  return index;
}

}  // namespace callfit
