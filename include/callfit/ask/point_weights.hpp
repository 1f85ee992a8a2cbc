// Fit weights out of points: a demand weighs what it scores.
#pragma once

#include <callfit/ask/matchup.hpp>

#include <cstddef>
#include <cstdint>
#include <vector>

namespace callfit {

/// The scheme with every demand weighed by the net points per drive that one spread of its measure
/// brings the setting's average quarterback (points_per_spread), call shares counted within; 0 for
/// measures that drives do not use, or where more of it scores less.
BoundScheme weighed_by_points(const Matchup& matchup);

struct WeightAgreement {
  std::size_t quarterbacks = 0;
  double between_fits = 0;   ///< Spearman, fit by the scheme's weights and by points
  double scheme_points = 0;  ///< Spearman, fit by the scheme's weights and net points
  double points_points = 0;  ///< Spearman, fit by points and net points
};

/// Over quarterbacks drawn from the setting's population.
WeightAgreement weight_agreement(const Matchup& matchup, const BoundScheme& by_points,
                                 std::size_t quarterbacks, std::uint64_t seed, unsigned threads);

}  // namespace callfit
