// Batches of neighbouring draws, from which the error of what draws say is taken.
#pragma once

#include <callfit/ask/number.hpp>

#include <array>
#include <cmath>
#include <cstddef>
#include <span>

namespace callfit::ask {

/// One value of each batch.
using ByBatch = std::array<double, batch_count>;

/// Batch `b`, from 0; together they are all draws, and their sizes differ by one at most.
inline std::span<const double> batch_of(std::span<const double> draws, std::size_t b) {
  const std::size_t first = b * draws.size() / batch_count;
  return draws.subspan(first, (b + 1) * draws.size() / batch_count - first);
}

/// Of the mean of the batches' values.
inline double standard_error(const ByBatch& values) {
  const double mean = mean_of(values);
  double squares = 0;
  for (const double value : values) squares += (value - mean) * (value - mean);
  return std::sqrt(squares / (batch_count * (batch_count - 1)));
}

}  // namespace callfit::ask
