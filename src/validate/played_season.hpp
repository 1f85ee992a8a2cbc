// Seasons that are in both tables, and what the model makes of them.
#pragma once

#include <validate/clustered.hpp>
#include <validate/season_player.hpp>

#include <array>
#include <map>
#include <string>
#include <vector>

namespace callfit {

struct PlayedSeason {
  const QuarterbackSeason* season = nullptr;
  Games games;
  SeasonCounts counts;
  double points = 0;  ///< real ones per drive, less the mean of its season's men
  double model = 0;   ///< the model's, exact, less their mean
  double first_order = 0;
  std::array<double, points_part_count> parts{};  ///< of first order, less their means

  const std::string& man() const { return season->quarterback; }
  int year() const { return season->season; }
};

/// Seasons of 200 dropbacks, by man and year.
std::vector<PlayedSeason> played_seasons(const std::map<SeasonKey, Games>& games,
                                         const std::vector<QuarterbackSeason>& seasons,
                                         const PointsGround& ground);

/// Pairs of seasons of one man, one year apart: places of the earlier and the later one.
struct TwoSeasons {
  std::size_t before = 0, after = 0;
};
std::vector<TwoSeasons> consecutive(const std::vector<PlayedSeason>& seasons);

/// One value a season.
template <class Value>
Eigen::VectorXd column_of(const std::vector<PlayedSeason>& seasons, const Value& value) {
  Eigen::VectorXd out(static_cast<Eigen::Index>(seasons.size()));
  for (std::size_t i = 0; i < seasons.size(); ++i)
    out[static_cast<Eigen::Index>(i)] = value(seasons[i]);
  return out;
}

}  // namespace callfit
