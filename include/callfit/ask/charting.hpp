// What to chart next: whose uncertainty makes the answer uncertain, and what more tape would do.
#pragma once

#include <callfit/ask/comparison.hpp>
#include <callfit/ask/matchup.hpp>
#include <callfit/profile/profile.hpp>
#include <callfit/stats/sobol.hpp>

#include <cstddef>
#include <vector>

namespace callfit {

inline constexpr double more_snaps = 10;  ///< what narrowing is told for

/// What more tape of one family would do for one result.
struct TapeWorth {
  SobolIndex share;      ///< of the result's variance, first order
  double narrowing = 0;  ///< expected share of the 90% interval's width that more_snaps take away
};

/// One family of the setting that the scheme calls.
struct ChartingRow {
  std::size_t family = 0;  ///< index into Setting::families
  double snaps = 0;        ///< charted so far
  double call_share = 0;
  TapeWorth fit;
  TapeWorth net_points;
};

struct ChartingAdvice {
  Interval fit90;
  Interval net_points90;          ///< per drive
  std::vector<ChartingRow> rows;  ///< largest narrowing of the net points first
};

/// Shares are first-order Sobol indices over posterior draws, all of a family's rates and gains as
/// one group; gains of scrambles and sacks, which families share, belong to none. The narrowing
/// takes the family's part of the variance times the part that more snaps remove: n / (strength +
/// n) of each rate or mean gain (exact for conjugate posteriors of linear results), weighted by
/// their squared correlations with the result. Costs (families + 1) x draws evaluations.
ChartingAdvice what_to_chart(const Profile& profile, const Matchup& matchup,
                             const DrawOptions& options, const Progress& progress = {});

}  // namespace callfit
