// The standard normal distribution.
#pragma once

namespace callfit {

/// The value that a standard normal variable stays below with probability `p` in (0, 1).
double normal_quantile(double p);

}  // namespace callfit
