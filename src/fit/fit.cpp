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
  for (const DemandCorrelation& correlation : scheme.scheme.correlations) {
    Together& together = together_.emplace_back();
    together.correlation = &correlation.matrix;
    for (std::size_t d = 0; d < part_.size(); ++d)
      if (scheme.scheme.demands[d].family == correlation.family) {
        together.demands.push_back(d);
        together.root_weight.push_back(std::sqrt(weight_[d]));
      }
    together.missing.resize(together.demands.size());
  }
}

const std::vector<double>& DistanceSheet::parts(const std::vector<double>& given) {
  if (total_ <= 0) return part_;
  for (std::size_t d = 0; d < part_.size(); ++d) {
    const double missing =
        std::max(0.0, short_by(given[d], scheme_.scheme.demands[d], scheme_.spread[d]));
    part_[d] = weight_[d] * missing * missing / total_;
  }
  for (Together& together : together_) correlate(together, given);
  return part_;
}

// A family whose demands are correlated: their parts become those of one distance.
void DistanceSheet::correlate(Together& together, const std::vector<double>& given) {
  for (std::size_t i = 0; i < together.demands.size(); ++i) {
    const std::size_t d = together.demands[i];
    together.missing[i] =
        together.root_weight[i] * short_by(given[d], scheme_.scheme.demands[d], scheme_.spread[d]);
  }
  const ShortfallDistance distance = shortfall_distance(together.missing, *together.correlation);
  for (std::size_t i = 0; i < together.demands.size(); ++i)
    part_[together.demands[i]] = distance.part[i] / total_;
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
