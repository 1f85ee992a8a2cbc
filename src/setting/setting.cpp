#include <callfit/setting/setting.hpp>
#include <callfit/stats/logit.hpp>

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

YardPmf shifted(const YardPmf& pmf, double shift) {
  if (shift == 0) return pmf;
  YardPmf out{pmf.first, std::vector<double>(pmf.p.size(), 0.0)};
  double at_least = std::accumulate(pmf.p.begin(), pmf.p.end(), 0.0);
  double moved = 1;
  const double odds = std::exp(shift);
  for (std::size_t i = 0; i < pmf.p.size(); ++i) {
    at_least = i + 1 == pmf.p.size() ? 0.0 : std::max(0.0, at_least - pmf.p[i]);
    const double share = std::min(at_least, 1.0);
    const double moved_beyond = odds * share / (1 - share + odds * share);
    out.p[i] = std::max(0.0, moved - moved_beyond);
    moved = moved_beyond;
  }
  return out;
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

std::vector<double> GainPopulation::bin_means() const {
  const std::vector<double> share = bin_shares();
  std::vector<double> mean(share.size(), 0.0);
  for (int yards = shape.first; yards <= shape.last(); ++yards)
    mean[bin_of(yards)] += yards * shape.at(yards);
  for (std::size_t b = 0; b < mean.size(); ++b)
    if (share[b] > 0) mean[b] /= share[b];
  return mean;
}

std::vector<double> GainPopulation::alpha() const {
  std::vector<double> alpha = bin_shares();
  for (double& value : alpha) value *= concentration;
  return alpha;
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

double Setting::own_goal_safety(int yards_to_goal) const {
  const auto found = std::find_if(own_goal.begin(), own_goal.end(), [&](const OwnGoalRule& rule) {
    return rule.yards_to_goal.contains(yards_to_goal);
  });
  return found == own_goal.end() ? 1 : found->safety;
}

const Level* Setting::find_level(std::string_view wanted) const {
  const auto found = std::find_if(levels.begin(), levels.end(),
                                  [wanted](const Level& l) { return l.id == wanted; });
  return found == levels.end() ? nullptr : &*found;
}

CellTable Setting::cell_table(const FamilyPopulation& family) const {
  CellTable table;
  for (const CellPopulation& condition : cells) {
    if (!condition.who.covers(family)) continue;
    auto& row = table[static_cast<std::size_t>(condition.cell)];
    for (std::size_t r = 0; r < rate_count; ++r) {
      const auto& own = condition.rates[r];
      if (own) row[r] = CellRate{(row[r] ? row[r]->shift : 0.0) + own->shift, own->kappa};
    }
  }
  return table;
}

double Setting::cell_gain_shift(const FamilyPopulation& family, Cell cell, GainPart part) const {
  double total = 0;
  for (const CellPopulation& condition : cells)
    if (condition.cell == cell && condition.who.covers(family))
      total += condition.gain_shift[static_cast<std::size_t>(part)];
  return total;
}

std::array<double, shell_count> shell_mix(const Setting& setting) {
  std::array<double, shell_count> even{};
  even.fill(1.0 / shell_count);
  return setting.shells.empty() ? even : setting.shells.back().share;
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
