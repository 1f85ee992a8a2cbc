// Even points in many dimensions: fewer of them tell as much as many random ones.
#pragma once

#include <callfit/base/random.hpp>

#include <array>
#include <cstddef>
#include <cstdint>
#include <span>
#include <vector>

namespace callfit {

/// The first 8192 points of Sobol's sequence (Sobol 1967; direction numbers of Joe & Kuo 2008, as
/// Boost.Random has them), scrambled as Owen (1995) does, anew for every 8192 draws: every
/// coordinate is uniform, and every 2^k neighbours, from a multiple of 2^k on, are spread evenly.
class ScrambledNet {
 public:
  static constexpr int digits = 13;
  static constexpr std::size_t size = std::size_t{1} << digits;

  /// `dimensions` at most 3667, else std::range_error.
  explicit ScrambledNet(std::size_t dimensions);

  /// One coordinate of every draw, in (0, 1); `stream` is the coordinate's own.
  void fill(std::span<double> column, std::size_t dimension, Stream stream) const;

 private:
  using Directions = std::array<std::uint64_t, digits>;

  std::vector<Directions> directions_;  // by dimension, the leading digits
};

}  // namespace callfit
