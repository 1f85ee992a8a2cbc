#include <ask/fit_draws.hpp>
#include <callfit/stats/distance.hpp>

#include <algorithm>
#include <cmath>

namespace callfit::ask {
namespace {

// Signed shortfall in spreads, positive when less than what is asked is given.
double short_by(double given, const Demand& demand, double spread) {
  const double missing = (demand.level - given) / spread;
  return demand.more_is_better ? missing : -missing;
}

class Sheet {
 public:
  Sheet(const std::vector<Column>& measures, const BoundScheme& bound)
      : measures_(measures), bound_(bound), part_(measures.size()) {
    for (const Demand& demand : bound.scheme.demands) {
      weight_.push_back(bound.call_share[demand.family] * demand.weight);
      total_ += weight_.back();
    }
  }

  double total() const { return total_; }
  const std::vector<double>& parts(std::size_t draw) {
    for (std::size_t d = 0; d < part_.size(); ++d) {
      const double missing = std::max(0.0, at(d, draw));
      part_[d] = weight_[d] * missing * missing / total_;
    }
    for (const DemandCorrelation& correlation : bound_.scheme.correlations)
      correlate(correlation, draw);
    return part_;
  }

 private:
  double at(std::size_t d, std::size_t draw) const {
    return short_by(measures_[d][draw], bound_.scheme.demands[d], bound_.spread[d]);
  }

  // A family whose demands are correlated: their parts become those of one distance.
  void correlate(const DemandCorrelation& correlation, std::size_t draw) {
    std::vector<std::size_t> places;
    std::vector<double> missing;
    for (std::size_t d = 0; d < part_.size(); ++d) {
      if (bound_.scheme.demands[d].family != correlation.family) continue;
      places.push_back(d);
      missing.push_back(std::sqrt(weight_[d]) * at(d, draw));
    }
    const ShortfallDistance distance = shortfall_distance(missing, correlation.matrix);
    for (std::size_t i = 0; i < places.size(); ++i) part_[places[i]] = distance.part[i] / total_;
  }

  const std::vector<Column>& measures_;
  const BoundScheme& bound_;
  std::vector<double> part_, weight_;
  double total_ = 0;
};

}  // namespace

std::vector<Column> measures_of(const Sample& sample, const BoundScheme& bound) {
  std::vector<Column> columns;
  columns.reserve(bound.scheme.demands.size());
  for (const Demand& demand : bound.scheme.demands)
    columns.push_back(
        sample.measure(bound.setting_family[demand.family], demand.measure, demand.cell));
  return columns;
}

FitDraws fit_draws(const std::vector<Column>& measures, const BoundScheme& bound,
                   std::size_t draws) {
  FitDraws out;
  out.distance.assign(draws, 0.0);
  out.mean_part.assign(measures.size(), 0.0);
  out.family_part.assign(bound.scheme.families.size(), Column(draws, 0.0));
  Sheet sheet(measures, bound);
  if (sheet.total() <= 0) return out;  // nothing that is ever called is demanded
  for (std::size_t i = 0; i < draws; ++i) {
    const std::vector<double>& parts = sheet.parts(i);
    for (std::size_t d = 0; d < parts.size(); ++d) {
      out.distance[i] += parts[d];
      out.mean_part[d] += parts[d] / static_cast<double>(draws);
      out.family_part[bound.scheme.demands[d].family][i] += parts[d];
    }
  }
  return out;
}

Column places_among(const Column& distance, const Column& others) {
  Column places;
  places.reserve(distance.size());
  const auto n = static_cast<double>(others.size());
  for (const double value : distance) {
    const auto [first, last] = std::equal_range(others.begin(), others.end(), value);
    const auto larger = static_cast<double>(others.end() - last);
    places.push_back(100 * (larger + 0.5 * static_cast<double>(last - first)) / n);
  }
  return places;
}

}  // namespace callfit::ask
