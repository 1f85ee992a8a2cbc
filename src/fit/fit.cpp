#include <callfit/fit/fit.hpp>
#include <callfit/stats/distance.hpp>

#include <algorithm>
#include <cmath>

namespace callfit {

double short_by(double given, const Demand& demand, double spread) {
  const double missing = (demand.level - given) / spread;
  return demand.more_is_better ? missing : -missing;
}

DistanceSheet::DistanceSheet(const BoundScheme& scheme)
    : scheme_(scheme), part_(scheme.scheme.demands.size(), 0.0) {
  for (const Demand& demand : scheme.scheme.demands) {
    weight_.push_back(scheme.call_share[demand.family] * demand.weight);
    total_ += weight_.back();
  }
}

const std::vector<double>& DistanceSheet::parts(const std::vector<double>& given) {
  if (total_ <= 0) return part_;
  for (std::size_t d = 0; d < part_.size(); ++d) {
    const double missing =
        std::max(0.0, short_by(given[d], scheme_.scheme.demands[d], scheme_.spread[d]));
    part_[d] = weight_[d] * missing * missing / total_;
  }
  for (const DemandCorrelation& correlation : scheme_.scheme.correlations)
    correlate(correlation, given);
  return part_;
}

// A family whose demands are correlated: their parts become those of one distance.
void DistanceSheet::correlate(const DemandCorrelation& correlation,
                              const std::vector<double>& given) {
  std::vector<std::size_t> places;
  std::vector<double> missing;
  for (std::size_t d = 0; d < part_.size(); ++d) {
    const Demand& demand = scheme_.scheme.demands[d];
    if (demand.family != correlation.family) continue;
    places.push_back(d);
    missing.push_back(std::sqrt(weight_[d]) * short_by(given[d], demand, scheme_.spread[d]));
  }
  const ShortfallDistance distance = shortfall_distance(missing, correlation.matrix);
  for (std::size_t i = 0; i < places.size(); ++i) part_[places[i]] = distance.part[i] / total_;
}

FitResult fit_of(const Player& player, const BoundScheme& scheme, const Setting& setting) {
  std::vector<double> given;
  for (const Demand& demand : scheme.scheme.demands)
    given.push_back(measure_of(player, setting, scheme.setting_family[demand.family],
                               demand.measure, demand.cell));
  DistanceSheet sheet(scheme);
  const std::vector<double>& parts = sheet.parts(given);
  FitResult fit;
  for (std::size_t d = 0; d < given.size(); ++d) {
    const Demand& demand = scheme.scheme.demands[d];
    const double missing = short_by(given[d], demand, scheme.spread[d]);
    fit.demands.push_back({demand.family, d, given[d], demand.level, std::max(0.0, missing),
                           std::max(0.0, -missing),
                           scheme.call_share[demand.family] * demand.weight, parts[d]});
    fit.distance_squared += parts[d];
  }
  return fit;
}

}  // namespace callfit
