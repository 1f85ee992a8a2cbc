#include <ask/batches.hpp>
#include <callfit/ask/number.hpp>
#include <callfit/stats/interval.hpp>

#include <algorithm>
#include <array>
#include <cmath>
#include <numeric>
#include <stdexcept>

namespace callfit {
Number number_of(std::span<const double> draws) {
  if (draws.size() < 4 * batch_count) throw std::invalid_argument("number_of: too few draws");
  ask::ByBatch low{};
  ask::ByBatch high{};
  for (std::size_t b = 0; b < batch_count; ++b) {
    const std::span<const double> batch = ask::batch_of(draws, b);
    const auto ends = quantiles_of({batch.begin(), batch.end()}, std::array{0.05, 0.95});
    low[b] = ends[0];
    high[b] = ends[1];
  }
  const auto [low_end, centre, high_end] =
      quantiles_of({draws.begin(), draws.end()}, std::array{0.05, 0.5, 0.95});
  return {centre, low_end, high_end, draws.size(),
          2 * std::max(ask::standard_error(low), ask::standard_error(high))};
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
