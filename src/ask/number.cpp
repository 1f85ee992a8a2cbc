#include <callfit/ask/number.hpp>
#include <callfit/stats/interval.hpp>

#include <algorithm>
#include <array>
#include <cmath>
#include <numeric>
#include <stdexcept>

namespace callfit {
namespace {

constexpr std::size_t batches = batch_count;
constexpr std::size_t fewest = 4 * batches;

double standard_error(const std::array<double, batches>& values) {
  const double mean = std::accumulate(values.begin(), values.end(), 0.0) / batches;
  double squares = 0;
  for (const double value : values) squares += (value - mean) * (value - mean);
  return std::sqrt(squares / (batches * (batches - 1)));
}

}  // namespace

Number number_of(std::span<const double> draws) {
  if (draws.size() < fewest) throw std::invalid_argument("number_of: too few draws");
  std::array<double, batches> low{};
  std::array<double, batches> high{};
  for (std::size_t b = 0; b < batches; ++b) {
    const auto first = draws.begin() + static_cast<std::ptrdiff_t>(b * draws.size() / batches);
    const auto last = draws.begin() + static_cast<std::ptrdiff_t>((b + 1) * draws.size() / batches);
    const auto ends = quantiles_of({first, last}, std::array{0.05, 0.95});
    low[b] = ends[0];
    high[b] = ends[1];
  }
  const auto [low_end, centre, high_end] =
      quantiles_of({draws.begin(), draws.end()}, std::array{0.05, 0.5, 0.95});
  return {centre, low_end, high_end, draws.size(),
          2 * std::max(standard_error(low), standard_error(high))};
}

Number scaled(const Number& number, double factor) {
  Number out{number.centre * factor, number.low * factor, number.high * factor, number.draws,
             number.error * std::abs(factor)};
  if (factor < 0) std::swap(out.low, out.high);
  return out;
}

Number moved(const Number& number, double by) {
  return {number.centre + by, number.low + by, number.high + by, number.draws, number.error};
}

double mean_of(std::span<const double> draws) {
  return std::accumulate(draws.begin(), draws.end(), 0.0) / static_cast<double>(draws.size());
}

}  // namespace callfit
