// Ends of a range that holds a value with 90% probability.
#pragma once

namespace callfit {

/// Ends of the central 90% of a distribution.
struct Interval {
  double low = 0;
  double high = 0;
};

}  // namespace callfit
