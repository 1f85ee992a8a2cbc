// What is known around a tape: which place its snaps come from, what its opponents allowed to
// others, and the totals of the seasons that it is a part of.
#pragma once

#include <callfit/population/population.hpp>

#include <array>
#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace callfit {

/// Snaps of another place than the one that is asked about, and what changed since. What is empty
/// fits any snap; the first move that fits a snap counts, and a snap that none fits is of the place
/// asked about. Moves of one named team and one change are one place.
struct Move {
  std::string season, team;
  std::string chart;  ///< name of the chart's file
  PlaceChange change = PlaceChange::new_team;
};

/// What everybody can look up of a season or a defence. The trials of each are in the order
/// completions of attempts, interceptions of attempts, sacks and scrambles of dropbacks.
enum class BoxRate { completion, interception, sack, scramble };
inline constexpr std::size_t box_rate_count = 4;

template <>
inline constexpr auto enum_words<BoxRate> =
    std::to_array<std::string_view>({"completion", "interception", "sack", "scramble"});

struct BoxCount {
  double made = 0, of = 0;
};

using BoxCounts = std::array<std::optional<BoxCount>, box_rate_count>;

/// Of one opponent: what he allowed to others in `games`, or what share of the level's defences are
/// worse than he.
struct OpponentRecord {
  std::string name, level;  ///< as in the chart
  BoxCounts allowed;
  double games = 0;
  std::optional<double> better_than;  ///< in (0, 1)
  double give_or_take = 0;            ///< of better_than, one standard deviation, in (0, 0.5]
};

/// Totals of one season of his, charted games and all.
struct SeasonTotals {
  std::string season, team, level;
  double games = 0;
  BoxCounts totals;
};

/// A season's charted games beside the rest of that season: further from it than chance puts them.
struct SeasonDeparture {
  std::string season, level;
  BoxRate rate = BoxRate::completion;
  BoxCount charted, rest;
  double errors =
      0;  ///< difference of the two, in standard errors; games and opponents are in them
};

struct Around {
  std::vector<Move> moves;
  std::vector<OpponentRecord> opponents;
  std::vector<OpponentRecord> coming;  ///< of the games that are asked about; empty: average ones
  std::vector<SeasonTotals> seasons;
  /// How often each family is called where nobody counted, indexed like Setting::families; empty:
  /// evenly.
  std::vector<double> calls;
};

}  // namespace callfit
