// From data to pixels, and round numbers to label.
#pragma once

#include <vector>

namespace callfit {

/// Straight line from data to pixels; pixel ends may run either way. A domain without width is
/// widened so that nothing divides by zero.
class LinearScale {
 public:
  LinearScale(double low, double high, double pixel_low, double pixel_high);

  double operator()(double value) const;
  /// The same, held inside the domain.
  double clamped(double value) const;
  double low() const { return low_; }
  double high() const { return high_; }

 private:
  double low_, high_, pixel_low_, pixel_high_;
};

/// About `wanted` multiples of 1, 2 or 5 times a power of ten inside [low, high]; Heckbert, "Nice
/// numbers for graph labels", Graphics Gems (1990).
std::vector<double> round_ticks(double low, double high, int wanted);

/// Digits after the point that tell `ticks` apart: 0 for 1, 2, 3; 1 for 0.5, 1.0, 1.5.
int decimals_of(const std::vector<double>& ticks);

/// Smallest range of round steps that holds [low, high].
struct Range {
  double low = 0;
  double high = 1;
};
Range round_range(double low, double high, int wanted);

}  // namespace callfit
