// How much of a result's variance each group of inputs causes.
#pragma once

#include <cstddef>
#include <vector>

namespace callfit {

struct SobolIndex {
  double first = 0;           ///< share of the variance that the group causes on its own
  double standard_error = 0;  ///< of the estimate
};

/// First-order Sobol index by the symmetric pick-freeze estimator of Janon, Klein, Lagnoux, Nodet &
/// Prieur (2014), ESAIM: Probability and Statistics 18:342-364: `y[s]` and `frozen[s]` are results
/// of two independent inputs that agree in the group alone. With m the common mean,
/// S = mean((y - m)(frozen - m)) / mean(((y - m)^2 + (frozen - m)^2) / 2); the standard error is
/// the asymptotic one given there. Both of one size >= 2; 0 when nothing varies.
SobolIndex sobol_index(const std::vector<double>& y, const std::vector<double>& frozen);

}  // namespace callfit
