#include <callfit/setting/setting.hpp>

#include <algorithm>
#include <cmath>
#include <numeric>

namespace callfit {

double mean(const YardPmf& pmf) {
  double sum = 0;
  for (std::size_t i = 0; i < pmf.p.size(); ++i)
    sum += pmf.p[i] * (pmf.first + static_cast<int>(i));
  return sum;
}

double variance(const YardPmf& pmf) {
  const double centre = mean(pmf);
  double sum = 0;
  for (std::size_t i = 0; i < pmf.p.size(); ++i) {
    const double off = pmf.first + static_cast<int>(i) - centre;
    sum += pmf.p[i] * off * off;
  }
  return sum;
}

std::size_t GainPopulation::bin_of(int yards) const {
  const auto above = std::upper_bound(bin_start.begin(), bin_start.end(), yards);
  return above == bin_start.begin() ? 0 : static_cast<std::size_t>(above - bin_start.begin()) - 1;
}

std::vector<double> GainPopulation::bin_shares() const {
  std::vector<double> shares(bin_start.size(), 0.0);
  for (int yards = shape.first; yards <= shape.last(); ++yards)
    shares[bin_of(yards)] += shape.at(yards);
  return shares;
}

bool FamilyFilter::covers(const FamilyPopulation& family) const {
  const bool kind_fits =
      kinds.empty() || std::find(kinds.begin(), kinds.end(), family.kind) != kinds.end();
  const bool id_fits =
      families.empty() || std::find(families.begin(), families.end(), family.id) != families.end();
  return kind_fits && id_fits;
}

double FieldGoalModel::make(int distance) const {
  if (distance > longest) return 0;
  return 1 / (1 + std::exp(-(intercept + slope * distance)));
}

const FamilyPopulation* Setting::find_family(std::string_view wanted) const {
  const auto found = std::find_if(families.begin(), families.end(),
                                  [wanted](const FamilyPopulation& f) { return f.id == wanted; });
  return found == families.end() ? nullptr : &*found;
}

const Level* Setting::find_level(std::string_view wanted) const {
  const auto found = std::find_if(levels.begin(), levels.end(),
                                  [wanted](const Level& l) { return l.id == wanted; });
  return found == levels.end() ? nullptr : &*found;
}

std::optional<CellRate> Setting::cell_rate(const FamilyPopulation& family, Cell cell,
                                           Rate rate) const {
  std::optional<CellRate> total;
  for (const CellPopulation& population : cells) {
    if (population.cell != cell || !population.who.covers(family)) continue;
    const auto& own = population.rates[static_cast<std::size_t>(rate)];
    if (!own) continue;
    // Shifts of several entries add up; the last entry's kappa is the most specific one.
    total = CellRate{(total ? total->shift : 0.0) + own->shift, own->kappa};
  }
  return total;
}

std::vector<double> start_shares(const Setting& setting) {
  std::vector<double> share(100, 0.0);
  for (const StartKind& kind : setting.starts)
    for (int own = kind.own_yard.first; own <= kind.own_yard.last(); ++own)
      share[static_cast<std::size_t>(std::clamp(100 - own, 1, 99))] +=
          kind.share * kind.own_yard.at(own);
  const double total = std::accumulate(share.begin(), share.end(), 0.0);
  for (double& value : share) value /= total;
  return share;
}

}  // namespace callfit
