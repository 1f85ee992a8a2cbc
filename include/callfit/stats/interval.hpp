// Ends of a range that holds a value with 90% probability.
#pragma once

#include <algorithm>
#include <array>
#include <cstddef>
#include <vector>

namespace callfit {

/// Ends of the central 90% of a distribution.
struct Interval {
  double low = 0;
  double high = 0;
};

/// Quantile of a sorted, non-empty sample (type 7 of Hyndman & Fan 1996), p in [0, 1].
double quantile_of(const std::vector<double>& sorted, double p);

/// Such quantiles of a non-empty sample in any order, `p` ascending, at little more than the cost
/// of looking at it: nothing is sorted that need not be.
template <std::size_t n>
std::array<double, n> quantiles_of(std::vector<double> sample, const std::array<double, n>& p);

/// Central 90% of a sample, in any order. Throws std::invalid_argument when it is empty.
Interval interval90_of(std::vector<double> sample);

/// Median of a sample, in any order. Throws std::invalid_argument when it is empty.
double median_of(std::vector<double> sample);

template <std::size_t n>
std::array<double, n> quantiles_of(std::vector<double> sample, const std::array<double, n>& p) {
  std::array<double, n> out{};
  auto settled = sample.begin();  // before it stands nothing that is larger than what follows
  for (std::size_t i = 0; i < n; ++i) {
    const double place = p[i] * static_cast<double>(sample.size() - 1);
    const auto below = sample.begin() + static_cast<std::ptrdiff_t>(place);
    std::nth_element(settled, below, sample.end());
    settled = below;
    const double rest = place - static_cast<double>(below - sample.begin());
    const double above =
        below + 1 == sample.end() ? *below : *std::min_element(below + 1, sample.end());
    out[i] = *below + rest * (above - *below);
  }
  return out;
}

}  // namespace callfit
