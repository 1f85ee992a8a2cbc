#pragma once

#include <numeric>
#include <vector>

namespace callfit::testing {

inline double sum(const std::vector<double>& values) {
  return std::accumulate(values.begin(), values.end(), 0.0);
}

}  // namespace callfit::testing
