#include <callfit/profile/population_fit.hpp>
#include <profile/weights.hpp>

#include <array>

namespace callfit {
namespace {

using Members = std::vector<std::array<MemberCounts, rate_count>>;  // one a family

// Counts of one quarterback at the setting's level, by family and rate.
Members counts_of(const std::vector<Chart>& charts, const Setting& setting,
                  const std::vector<FamilyAlias>& like, PopulationFit& fit) {
  Members members(setting.families.size());
  weigh(charts, setting, weighting_of(setting), like, [&](const WeightedSnap& weighted) {
    if (weighted.snap->level != setting.level) {
      fit.other_levels += 1;
      return;
    }
    fit.snaps += 1;
    for (std::size_t r = 0; r < rate_count; ++r) {
      const auto made = trial(*weighted.snap, static_cast<Rate>(r), setting.success);
      if (!made) continue;
      members[weighted.family][r].of += 1;
      members[weighted.family][r].made += *made ? 1 : 0;
    }
  });
  return members;
}

RatePopulationFit fit_rate(const std::vector<Members>& quarterbacks, std::size_t family,
                           std::size_t rate) {
  RatePopulationFit out;
  out.family = family;
  out.rate = static_cast<Rate>(rate);
  std::vector<MemberCounts> members;
  double made = 0;
  for (const Members& quarterback : quarterbacks) {
    const MemberCounts& counts = quarterback[family][rate];
    if (counts.of <= 0) continue;
    members.push_back(counts);
    out.snaps += counts.of;
    made += counts.made;
  }
  out.quarterbacks = members.size();
  if (members.size() >= fewest_quarterbacks && made > 0 && made < out.snaps)
    out.fit = fit_beta_binomial(members);
  return out;
}

}  // namespace

RatePopulation RatePopulationFit::better_than(const RatePopulation& old) const {
  if (!fit) return old;
  const double widest = 0.99 * fit->mean * (1 - fit->mean);
  if (!fit->told_apart())
    return {fit->mean, old.spread * old.spread < widest ? old.spread : fit->mean / 4};
  return {fit->mean, fit->spread};
}

PopulationFit fit_population(const std::vector<std::vector<Chart>>& quarterbacks,
                             const Setting& setting, const std::vector<FamilyAlias>& like) {
  PopulationFit fit;
  std::vector<Members> members;
  members.reserve(quarterbacks.size());
  for (const std::vector<Chart>& charts : quarterbacks)
    members.push_back(counts_of(charts, setting, like, fit));
  for (std::size_t f = 0; f < setting.families.size(); ++f)
    for (std::size_t r = 0; r < rate_count; ++r)
      if (setting.families[f].rates[r]) fit.rates.push_back(fit_rate(members, f, r));
  return fit;
}

}  // namespace callfit
