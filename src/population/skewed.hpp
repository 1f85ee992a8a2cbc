// A standard normal score turned into a value of a skewed distribution.
#pragma once

#include <callfit/population/posterior.hpp>

#include <algorithm>
#include <cmath>

namespace callfit {

/// Marginal::at() for many scores.
class Skewed {
 public:
  explicit Skewed(const Marginal& marginal);

  double at(double score) const {
    if (bend_ == 0) return mean_ + scale_ * score;
    return mean_ + scale_ * std::expm1(bend_ * score - lift_);
  }

  /// The score of a value, within +-`farthest`.
  double score_of(double value) const {
    if (scale_ == 0) return 0;
    const double off = (value - mean_) / scale_;
    if (bend_ == 0) return std::clamp(off, -farthest, farthest);
    const double score = off > -1 ? (std::log1p(off) + lift_) / bend_ : -farthest / bend_;
    return std::clamp(score, -farthest, farthest);
  }

  /// Mean of at(score) over scores that are normal.
  double mean_at(double mean, double variance) const {
    if (bend_ == 0) return mean_ + scale_ * mean;
    return mean_ + scale_ * std::expm1(bend_ * mean - lift_ + bend_ * bend_ * variance / 2);
  }

  static constexpr double farthest = 8;

 private:
  double mean_, scale_;
  double bend_ = 0, lift_ = 0;
};

}  // namespace callfit
