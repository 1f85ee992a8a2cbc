// What was counted of one quarterback.
#pragma once

#include <callfit/population/population.hpp>

#include <array>
#include <cstddef>
#include <optional>
#include <vector>

namespace callfit {

/// Counts of one quantity under like circumstances. Indices are those of the population and of the
/// evidence that the tally stands in; what is left out does not apply: the level is the
/// population's own, the place is the one that is asked about. Snaps of a game whose opponent is
/// not known are of an opponent of their own; with neither known they are of an average opponent.
struct QuantityCounts {
  std::size_t quantity = 0;
  std::vector<double> counts;  ///< by category, the lowest first; a rate's are {missed, made}
  double shift = 0;            ///< log-odds of these snaps beyond the quarterback's own
  std::optional<std::size_t> level, source, opponent, game;
};

/// What is known of an opponent's effect on a trait: normal.
struct OpponentEffect {
  double mean = 0;  ///< log-odds, positive: the trait comes out higher against him
  double spread = 0;
};

struct Opponent {
  /// One a trait; where left out, mean 0 with the trait's opponent_spread.
  std::vector<std::optional<OpponentEffect>> effects;
};

/// Another place where he was charted, and how much of each trait is the same here:
/// u there and u here have the correlation carries_over[trait], each the population's spread.
struct TapeSource {
  std::vector<double> carries_over;  ///< one a trait, in [-1, 1]
};

TapeSource source_after(const Population& population, PlaceChange change);

struct Evidence {
  std::vector<QuantityCounts> tallies;
  std::vector<TapeSource> sources;
  std::vector<Opponent> opponents;
  std::size_t games = 0;
};

}  // namespace callfit
