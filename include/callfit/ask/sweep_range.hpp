#pragma once

#include <cmath>
#include <cstddef>
#include <string>

namespace callfit {

inline constexpr std::size_t fewest_steps = 2, most_steps = 101;

/// A path turned from one value to another in equal steps.
struct SweepRange {
  std::string path;
  double from = 0, to = 1;
  std::size_t count = 11;  ///< values, both ends included; fewest_steps to most_steps

  double at(std::size_t index) const {
    return std::lerp(from, to, static_cast<double>(index) / static_cast<double>(count - 1));
  }
};

}  // namespace callfit
