// The log-odds scale, on which every shift of a rate is given.
#pragma once

#include <algorithm>
#include <cmath>

namespace callfit {

/// Shares this close to 0 or 1 count as that close: log-odds stay finite.
inline constexpr double smallest_share = 1e-12;

inline double odds(double share) {
  const double p = std::clamp(share, smallest_share, 1 - smallest_share);
  return p / (1 - p);
}

inline double logit(double share) { return std::log(odds(share)); }

inline double logistic(double log_odds) { return 1 / (1 + std::exp(-log_odds)); }

/// A share moved by `shift` on the log-odds scale; shares of exactly 0 and 1 stay.
inline double shifted(double share, double shift) {
  if (shift == 0 || share <= 0 || share >= 1) return share;
  return logistic(logit(share) + shift);
}

/// The same by exp(shift), the factor of its odds.
inline double at_odds(double share, double factor) {
  if (factor == 1 || share <= 0 || share >= 1) return share;
  return factor * share / (1 - share + factor * share);
}

}  // namespace callfit
