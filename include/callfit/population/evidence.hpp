// What was counted of one quarterback.
#pragma once

#include <callfit/population/population.hpp>

#include <array>
#include <cstddef>
#include <optional>
#include <string>
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
  std::string name = {};  ///< for people
  /// One a trait; where left out, mean 0 with the trait's opponent_spread.
  std::vector<std::optional<OpponentEffect>> effects = {};
};

/// Another place where he was charted, and how much of each trait is the same here:
/// u there and u here have the correlation carries_over[trait], each the population's spread.
struct TapeSource {
  std::vector<double> carries_over;        ///< one a trait, in [-1, 1]
  std::string name = {};                   ///< for people
  std::optional<PlaceChange> change = {};  ///< what `carries_over` was read off from
};

TapeSource source_after(const Population& population, PlaceChange change);

/// One rate of a mixture: its share of the trials, and log-odds beyond the rate's own.
struct MixturePart {
  std::size_t quantity = 0;
  double share = 0;
  double shift = 0;
};

/// Trials of which only the sum over several rates is known: the chance of one is
/// sum_i share_i logistic(threshold_i + shift_i + x_i), x_i the quantity's slope u + own.
struct MixtureCounts {
  std::vector<MixturePart> parts;
  double made = 0, of = 0;
  double games = 0;  ///< of as many opponents, nobody knows whom; 0: against the average one
  std::optional<std::size_t> level = {}, source = {};
};

struct Evidence {
  std::vector<QuantityCounts> tallies;
  std::vector<MixtureCounts> mixtures;
  std::vector<TapeSource> sources;
  std::vector<Opponent> opponents;
  std::size_t games = 0;
  /// What the opponents of the games that are asked about do to each trait, their mean, whom the
  /// tape tells nothing of; empty: they are average ones.
  std::vector<OpponentEffect> coming = {};
};

}  // namespace callfit
