// What a season's games say of a league: its mean rates, and its population around them.
#pragma once

#include <callfit/population/evidence.hpp>
#include <callfit/population/population.hpp>
#include <callfit/validate/quarterbacks.hpp>

#include <array>
#include <cstddef>
#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace callfit {

using Games = std::vector<const QuarterbackGame*>;
using SeasonKey = std::pair<std::string, int>;  ///< a man's season
using Means = std::array<double, game_rate_count>;

/// The rate that is counted of a trait; nullopt of traits that games do not tell.
std::optional<GameRate> game_rate_of(std::string_view trait);

double dropbacks_of(const Games& games);
MemberCounts total(const Games& games, std::size_t rate);
std::map<SeasonKey, Games> by_season(const std::vector<QuarterbackGame>& games);

/// Mean rates; half an event more is counted, so that a league without one leaves it possible.
Means means_of(const Games& league);

/// The rates that the population has traits for, as its quantities.
class League {
 public:
  /// Throws InputError, under the name of its setting, where the population has none of the traits.
  League(const Population& population, const std::string& setting);

  const std::vector<std::size_t>& rates() const { return rates_; }
  const Trait& trait(std::size_t place) const {
    return population_.traits[population_.quantities[place].trait];
  }
  /// What one game differs by: its opponent and what is left.
  double game_spread(std::size_t place) const;
  /// The population around the league's means, which are those of single games.
  Population around(const Means& means) const;

  /// The games to come are another place with the same caller: a man is not quite the same in the
  /// second half of a season as in the first (of sacks the halves correlate .80, within_season of
  /// the population).
  TapeSource earlier_this_season() const;
  /// A season before, by what changed since: nullopt where that is not known.
  TapeSource last_season(std::optional<bool> new_team = std::nullopt) const;

 private:
  Population population_;
  std::vector<std::size_t> rates_;
};

/// What the games tell of the league's rates, all from that source.
Evidence evidence_of(const League& league, const Games& games, const TapeSource& source);

}  // namespace callfit
