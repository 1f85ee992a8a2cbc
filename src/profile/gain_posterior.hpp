// Posterior of gain distributions from charted yards.
#pragma once

#include <callfit/profile/profile.hpp>
#include <profile/weights.hpp>

#include <cstdint>
#include <optional>
#include <vector>

namespace callfit {

/// A gain known to lie in [low, high] yards; `high` past the shape means "at least low".
struct GainRange {
  int low = 0;
  int high = 0;
  double weight = 1;
};

/// What is known of one completion: the depth of the catch and the yards after it apart, or only
/// their sum. A sum that reached the goal line is "at least".
struct CatchRange {
  GainRange sum;
  std::optional<std::int16_t> depth;  ///< blank: only the sum is known
  bool after_known = true;  ///< false for a catch charted in the end zone: nothing left to run
};

/// Dirichlet over the population's bins. A range that spans bins is shared out over them by how
/// likely each is (expectation-maximisation, Dempster, Laird & Rubin 1977).
GainEstimate gain_posterior(const GainPopulation& population, const std::vector<GainRange>& gains);

struct CatchEstimates {
  GainEstimate depth;
  GainEstimate after;
};
CatchEstimates catch_posterior(const GainPopulation& depth, const GainPopulation& after,
                               const std::vector<CatchRange>& catches);

/// What each range counts for in each bin, at the shares that gain_posterior() settles at.
std::vector<std::vector<double>> gain_counts(const GainPopulation& population,
                                             const std::vector<GainRange>& gains);

/// The same of both parts of each catch. Sums count as much less as catch_posterior() is less sure
/// of them.
struct CatchCounts {
  std::vector<std::vector<double>> depth, after;
};
CatchCounts catch_counts(const GainPopulation& depth, const GainPopulation& after,
                         const std::vector<CatchRange>& catches);

/// What a charted snap says of its gain: at the goal line at least its yards.
GainRange gain_range(const WeightedSnap& snap);
CatchRange catch_range(const WeightedSnap& snap);

}  // namespace callfit
