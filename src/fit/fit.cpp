#include <callfit/fit/fit.hpp>
#include <callfit/stats/distance.hpp>

#include <algorithm>
#include <cmath>

namespace callfit {
namespace {

using Places = std::vector<std::size_t>;

// Signed shortfall in spreads: positive when the player gives less than what is asked.
double short_by(const DemandResult& result, const Demand& demand, double spread) {
  const double missing = (result.level - result.estimate) / spread;
  return demand.more_is_better ? missing : -missing;
}

DemandResult hold(const Player& player, const BoundScheme& bound, const Setting& setting,
                  std::size_t d) {
  const Demand& demand = bound.scheme.demands[d];
  DemandResult result;
  result.family = demand.family;
  result.demand = d;
  result.level = demand.level;
  result.estimate =
      measure_of(player, setting, bound.setting_family[demand.family], demand.measure, demand.cell);
  result.weight = bound.call_share[demand.family] * demand.weight;
  const double missing = short_by(result, demand, bound.spread[d]);
  result.shortfall = std::max(0.0, missing);
  result.surplus = std::max(0.0, -missing);
  result.contribution = result.weight * result.shortfall * result.shortfall;
  return result;
}

// A family whose demands are correlated: its contributions become the parts of one distance.
void correlate(std::vector<DemandResult>& results, const DemandCorrelation& correlation) {
  Places places;
  std::vector<double> missing;
  for (std::size_t d = 0; d < results.size(); ++d) {
    if (results[d].family != correlation.family) continue;
    places.push_back(d);
    missing.push_back(std::sqrt(results[d].weight) * (results[d].shortfall - results[d].surplus));
  }
  const ShortfallDistance distance = shortfall_distance(missing, correlation.matrix);
  for (std::size_t i = 0; i < places.size(); ++i)
    results[places[i]].contribution = distance.part[i];
}

}  // namespace

FitResult fit_of(const Player& player, const BoundScheme& scheme, const Setting& setting) {
  FitResult fit;
  double total_weight = 0;
  for (std::size_t d = 0; d < scheme.scheme.demands.size(); ++d) {
    fit.demands.push_back(hold(player, scheme, setting, d));
    total_weight += fit.demands.back().weight;
  }
  if (total_weight <= 0) return fit;  // nothing that is ever called is demanded
  for (const DemandCorrelation& correlation : scheme.scheme.correlations)
    correlate(fit.demands, correlation);
  for (DemandResult& demand : fit.demands) {
    demand.contribution /= total_weight;
    fit.distance_squared += demand.contribution;
  }
  fit.fit = 100 * std::exp(-fit.distance_squared / 2);
  return fit;
}

}  // namespace callfit
