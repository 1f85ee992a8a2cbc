// Following a season: what the tape says after each game.
#pragma once

#include <callfit/ask/comparison.hpp>
#include <callfit/ask/matchup.hpp>
#include <callfit/profile/profile.hpp>

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

namespace callfit {

/// One number that is followed.
struct Followed {
  std::size_t family = 0;  ///< index into Setting::families
  Measure measure = Measure::completion;
  std::optional<Cell> cell;
};

struct TrendStep {
  std::string game;                      ///< empty for the step before the first game
  double snaps = 0;                      ///< charted in that game
  double effective_snaps = 0;            ///< of all tape so far
  std::vector<UncertainValue> followed;  ///< in the order asked for
  UncertainValue fit;
  UncertainValue net_points;  ///< per drive
};

/// Whether the last step still agrees with the first: each value's end lies within the interval of
/// the beginning.
bool first_answer_held(const std::vector<TrendStep>& steps);

/// The demands of the scheme, as things to follow: each family and measure once.
std::vector<Followed> demands_to_follow(const BoundScheme& scheme);

/// A step from `before` alone (the population where it is empty), then one after each game of
/// `season`, in the order in which the games first appear. Every step builds the profile of all
/// tape up to there. Intervals come from posterior draws.
std::vector<TrendStep> trend_of(const std::string& name, const std::vector<Chart>& before,
                                const std::vector<Chart>& season, const Matchup& matchup,
                                const Weighting& weighting, const std::vector<FamilyAlias>& like,
                                const std::vector<Followed>& followed, const DrawOptions& options,
                                const Progress& progress = {});

}  // namespace callfit
