// The one type of every number that is shown: its centre, its 90% interval, what stands behind it.
#pragma once

#include <cstddef>
#include <span>
#include <vector>

namespace callfit {

/// `centre` is the median of the posterior, `low` and `high` the ends of its central 90%. Where
/// `draws` is 0 the posterior is known exactly; else all three come from that many draws, and
/// `error` is two Monte Carlo standard errors of the less certain end (the same unit): with another
/// seed the ends move by no more, 19 times in 20.
struct Number {
  double centre = 0;
  double low = 0, high = 0;
  std::size_t draws = 0;
  double error = 0;
};

/// How many batches of neighbouring draws an error is taken from.
inline constexpr std::size_t batch_count = 16;

/// Of a sample in the order of its draws; at least 64 values, else std::invalid_argument. The error
/// is that of batch means.
Number number_of(std::span<const double> draws);

/// The number times a factor of either sign, and plus a constant.
Number scaled(const Number& number, double factor);
Number moved(const Number& number, double by);

/// A part of a whole: the mean over the draws, so that parts add up to the whole's mean.
double mean_of(std::span<const double> draws);

}  // namespace callfit
