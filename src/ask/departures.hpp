// Whether a surrogate's interval can be trusted, from a few draws that are solved exactly.
#pragma once

#include <ask/fit_draws.hpp>

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <numeric>

namespace callfit::ask {

/// Departures of exact points from the surrogate's near the two ends: a straight line through them
/// (mean and tilt), and scatter around it.
class Departures {
 public:
  void add(double quantile, double departure) {
    side_.push_back(quantile < 0.5 ? -1 : 1);
    off_.push_back(departure);
  }

  double root_mean_square() const { return std::sqrt(dot(off_, off_) / count()); }

  // How far an end is off beyond three standard errors of the line, and what the scatter, which the
  // surrogate lacks, would widen the interval by (that of a normal one with a little variance
  // more).
  double end_error(double width) const {
    const double mean = std::accumulate(off_.begin(), off_.end(), 0.0) / count();
    const double tilt = dot(side_, off_) / count();
    double rest = 0;
    for (std::size_t i = 0; i < off_.size(); ++i)
      rest += std::pow(off_[i] - mean - tilt * side_[i], 2);
    const double scatter = std::sqrt(rest / (count() - 2));
    constexpr double sure = 3;
    constexpr double normal_end = 1.645;
    const double spread = width / (2 * normal_end);
    const double widening = spread > 0 ? normal_end * scatter * scatter / (2 * spread) : scatter;
    const double line = std::abs(mean) + std::abs(tilt);
    return std::max(0.0, line - sure * scatter * std::sqrt(2 / count())) + widening;
  }

 private:
  static double dot(const Column& a, const Column& b) {
    return std::inner_product(a.begin(), a.end(), b.begin(), 0.0);
  }
  double count() const { return static_cast<double>(off_.size()); }

  Column side_, off_;
};

}  // namespace callfit::ask
