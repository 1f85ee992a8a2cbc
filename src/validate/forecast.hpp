// What a man's games of one season say of his points in the next.
#pragma once

#include <validate/played_season.hpp>

namespace callfit {

struct PointsForecast {
  double mean = 0, sd = 0;  ///< points per drive beyond the average quarterback's
};

class Forecaster {
 public:
  explicit Forecaster(const PointsGround& ground);

  /// From all games of the season; `league` are the games of its men. Where his team is new next
  /// season (nullopt: not known) less carries over. Throws Unsettled as posterior_of() does.
  PointsForecast after(const PlayedSeason& season, const Means& league,
                       const MemberCounts& league_handoffs, std::optional<bool> new_team) const;

  /// From the first games of a season, of the rest of it; handoffs are not known by game.
  PointsForecast rest_of_season(const Games& first, const Means& league) const;

  /// Standard deviation between members of the population, and of what handoffs bring to it.
  double population_spread() const;
  double handoff_spread() const;
  /// Of that, what is known after the change of a man of whom all was known before it.
  double carried_spread(PlaceChange change) const;

 private:
  enum class Quantities { all, handoffs };
  Population around(const Means& league, const MemberCounts& handoffs) const;
  PointsForecast points_of(const Posterior& posterior, Quantities which = Quantities::all) const;
  PointsForecast member(Quantities which) const;

  const PointsGround& ground_;
  League league_;
  std::optional<std::size_t> handoff_;  ///< trait of handoffs
  std::size_t first_ = 0;               ///< place of the setting's first quantity
  Eigen::VectorXd slopes_;              ///< first-order points by each of its quantities
};

}  // namespace callfit
