// Draws of the gamma distribution, for loops that need millions.
#pragma once

#include <callfit/base/random.hpp>

#include <boost/random/normal_distribution.hpp>

#include <cmath>

namespace callfit {

/// Gamma(shape, 1) by Marsaglia & Tsang (2000), the normal by Boost's ziggurat. Shapes below 1 are
/// drawn as gamma(shape + 1) U^(1/shape), which can underflow to 0; so does a shape of 0 always.
class GammaDraw {
 public:
  explicit GammaDraw(double shape) : d_((shape < 1 ? shape + 1 : shape) - 1.0 / 3) {
    c_ = 1 / std::sqrt(9 * d_);
    if (shape < 1) power_ = shape > 0 ? 1 / shape : HUGE_VAL;
  }

  double operator()(Stream& stream) const {
    const double whole = large(stream);
    if (power_ == 0) return whole;
    const double log_uniform = std::log1p(-stream.uniform());
    return log_uniform < 0 ? whole * std::exp(log_uniform * power_) : whole;
  }

 private:
  double large(Stream& stream) const {
    boost::random::normal_distribution<double> normal;
    for (;;) {
      const double x = normal(stream);
      const double root = 1 + c_ * x;
      if (root <= 0) continue;
      const double v = root * root * root;
      const double u = stream.uniform();
      const double square = x * x;
      if (u < 1 - 0.0331 * square * square ||
          std::log(u) < 0.5 * square + d_ * (1 - v + std::log(v)))
        return d_ * v;
    }
  }

  double d_;
  double c_ = 0;
  double power_ = 0;  ///< 1 / shape below 1
};

}  // namespace callfit
