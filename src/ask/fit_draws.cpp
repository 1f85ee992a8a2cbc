#include <ask/fit_draws.hpp>

#include <algorithm>

namespace callfit::ask {

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
  DistanceSheet sheet(bound);
  std::vector<double> given(measures.size());
  for (std::size_t i = 0; i < draws; ++i) {
    for (std::size_t d = 0; d < given.size(); ++d) given[d] = measures[d][i];
    const std::vector<double>& parts = sheet.parts(given);
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
