#include <callfit/profile/throw_zones.hpp>
#include <profile/weights.hpp>

#include <algorithm>
#include <array>
#include <optional>

namespace callfit {
namespace {

constexpr std::array depths{Cell::short_throw, Cell::intermediate_throw, Cell::deep_throw};
constexpr std::array lanes{Lane::left, Lane::middle, Lane::right};

struct Sums {
  double throws = 0, made = 0, effective = 0, effective_made = 0, mean = 0, strength = 0;
};

double weight_of(const Weighting& weighting, std::string_view level) {
  const auto found = std::find_if(weighting.levels.begin(), weighting.levels.end(),
                                  [&](const Level& l) { return l.id == level; });
  return found == weighting.levels.end() ? 1.0 : found->weight;
}

const RatePopulation* completion_of(const Snap& snap, const Setting& setting,
                                    const FamilyPlaces& families) {
  const auto family = families.at(snap.family.view());
  if (!family) return nullptr;
  const auto& rate = setting.families[*family].rates[static_cast<std::size_t>(Rate::completion)];
  return rate ? &*rate : nullptr;
}

void add(Sums& sums, const Snap& snap, const RatePopulation& population, double weight) {
  const double made = snap.result == Result::complete ? 1 : 0;
  sums.throws += 1;
  sums.made += made;
  sums.effective += weight;
  sums.effective_made += weight * made;
  sums.mean += population.mean;
  sums.strength += population.strength();
}

ThrowZone zone_of(const Sums& sums, Lane lane, Cell depth, double all) {
  ThrowZone zone{lane, depth, sums.throws, sums.throws / all, {}, sums.mean / sums.throws};
  const double strength = sums.strength / sums.throws;
  zone.completion.strength = strength + sums.effective;
  zone.completion.mean = (zone.usual * strength + sums.effective_made) / zone.completion.strength;
  zone.completion.counts = {sums.made, sums.throws, sums.effective_made, sums.effective};
  return zone;
}

}  // namespace

std::vector<ThrowZone> throw_zones(const std::vector<Chart>& charts, const Setting& setting,
                                   const Weighting& weighting,
                                   const std::vector<FamilyAlias>& like) {
  std::array<std::array<Sums, lanes.size()>, depths.size()> sums{};
  double all = 0;
  const FamilyPlaces families(setting, like);
  for (const Chart& chart : charts)
    for (const Snap& snap : chart.snaps) {
      if (!is_throw(snap.result) || !snap.lane || !snap.air_yards) continue;
      const RatePopulation* population = completion_of(snap, setting, families);
      if (population == nullptr) continue;
      for (std::size_t d = 0; d < depths.size(); ++d)
        if (in_cell(snap, depths[d]))
          add(sums[d][static_cast<std::size_t>(*snap.lane)], snap, *population,
              weight_of(weighting, snap.level));
      all += 1;
    }
  std::vector<ThrowZone> zones;
  for (std::size_t d = 0; d < depths.size(); ++d)
    for (std::size_t l = 0; l < lanes.size(); ++l)
      if (sums[d][l].throws > 0) zones.push_back(zone_of(sums[d][l], lanes[l], depths[d], all));
  return zones;
}

}  // namespace callfit
