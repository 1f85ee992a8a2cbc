// Box scores as evidence: what everybody can look up of a season or of a defence.
#pragma once

#include <callfit/chart/snap.hpp>
#include <callfit/population/evidence.hpp>
#include <callfit/profile/around.hpp>
#include <callfit/profile/profile.hpp>
#include <profile/tape_sources.hpp>

#include <array>
#include <cstddef>
#include <map>
#include <string>
#include <vector>

namespace callfit {

/// Trials of a game where nobody counted games: attempts, or dropbacks. Common practice, no source.
inline constexpr double usual_throws_of_game = 32;

/// Counts of a total rate as a mixture over the families that throw: shares are the calls (of
/// dropbacks), less the usual sacks and scrambles for throws. Sacks count of all dropbacks where
/// scrambles are known, else of throws and sacks.
MixtureCounts box_mixture(BoxRate rate, const BoxCount& count, bool scrambles_known,
                          const Setting& setting, const std::vector<double>& calls);

/// Box scores of charted snaps.
class BoxTally {
 public:
  void add(const Snap& snap);

  /// What a season's totals are held against. Sacks as above.
  BoxCounts counts(bool scrambles_known) const;
  std::size_t games() const { return games_.size(); }

 private:
  std::map<std::string, bool> games_;
  double throws_ = 0, completions_ = 0, interceptions_ = 0, sacks_ = 0, scrambles_ = 0;
};

/// Whether a charted snap is of the season. A season without a team is of any.
bool is_of(const Snap& snap, const SeasonTotals& season);

/// Adds the rest of each season, `charted` the charted part of each, and returns where charted
/// games depart from it by more than chance.
std::vector<SeasonDeparture> add_seasons(const Setting& setting, const Around& around,
                                         const std::vector<BoxTally>& charted,
                                         const TapeSources& sources, Evidence& evidence);

/// What is wrong with a season beside the charts, by its place in the list.
struct SeasonFault {
  std::size_t season = 0;
  std::string key;  ///< "completions"
  std::string what, mend;
};
std::vector<SeasonFault> faults_of(const std::vector<SeasonTotals>& seasons,
                                   const std::vector<Chart>& charts);

/// What a record says of an opponent's effect on each trait.
Opponent opponent_of(const OpponentRecord& record, const Setting& setting,
                     const std::vector<double>& calls);

/// What opponents to come do on the mean, each met once and independent of the others, as
/// Evidence::coming has it; empty for none.
std::vector<OpponentEffect> coming_of(const std::vector<OpponentRecord>& records,
                                      const Setting& setting, const std::vector<double>& calls);

}  // namespace callfit
