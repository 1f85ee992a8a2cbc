// Ends of a range that holds a value with 90% probability.
#pragma once

#include <vector>

namespace callfit {

/// Ends of the central 90% of a distribution.
struct Interval {
  double low = 0;
  double high = 0;
};

/// Quantile of a sorted, non-empty sample (type 7 of Hyndman & Fan 1996), p in [0, 1].
double quantile_of(const std::vector<double>& sorted, double p);

/// Central 90% of a sample, in any order. Throws std::invalid_argument when it is empty.
Interval interval90_of(std::vector<double> sample);

/// Median of a sample, in any order. Throws std::invalid_argument when it is empty.
double median_of(std::vector<double> sample);

}  // namespace callfit
