// A standard normal score turned into a value of a skewed distribution.
#pragma once

#include <callfit/population/posterior.hpp>

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

 private:
  double mean_, scale_;
  double bend_ = 0, lift_ = 0;
};

}  // namespace callfit
