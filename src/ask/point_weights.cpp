#include <callfit/ask/levers.hpp>
#include <callfit/ask/point_weights.hpp>
#include <callfit/stats/rank.hpp>

#include <algorithm>

namespace callfit {

BoundScheme weighed_by_points(const Matchup& matchup) {
  BoundScheme bound = matchup.bound;
  const std::vector<double> slope = points_per_spread(matchup);
  for (std::size_t d = 0; d < slope.size(); ++d) {
    Demand& demand = bound.scheme.demands[d];
    const double called = bound.call_share[demand.family];
    demand.weight = called > 0 ? std::max(0.0, slope[d]) / called : 0;
  }
  return bound;
}

WeightAgreement weight_agreement(const Matchup& matchup, const BoundScheme& by_points,
                                 std::size_t quarterbacks, std::uint64_t seed, unsigned threads) {
  std::vector<double> own(quarterbacks);
  std::vector<double> scored(quarterbacks);
  std::vector<double> net(quarterbacks);
  // D^2 rather than the fit: the order is the same, and far tails do not round to ties.
  for_each_unit(quarterbacks, threads, [&](std::size_t i) {
    const Player player = draw_from_population(matchup.setting, seed, i);
    own[i] = -fit_of(player, matchup.bound, matchup.setting).distance_squared;
    scored[i] = -fit_of(player, by_points, matchup.setting).distance_squared;
    net[i] = drive_points(matchup, player).net_points;
  });
  return {quarterbacks, spearman(own, scored), spearman(own, net), spearman(scored, net)};
}

}  // namespace callfit
