#include <drive/components.hpp>

#include <algorithm>

namespace callfit::drive {
namespace {

YardPmf source_of(const ShiftedGain& gain, const Setting& setting, const Player& player) {
  if (gain.part == GainPart::scramble) return gain_pmf(setting.scramble_gain, player.scramble_bins);
  if (gain.part == GainPart::sack) return gain_pmf(setting.sack_gain, player.sack_bins);
  const FamilyPopulation& population = setting.families[gain.family];
  const PlayerFamily& own = player.families[gain.family];
  if (gain.part == GainPart::depth) return gain_pmf(*population.depth, own.depth_bins);
  if (gain.part == GainPart::yac) return gain_pmf(*population.yac, own.yac_bins);
  return gain_pmf(*population.run, own.run_bins);
}

YardPmf up_to(const YardPmf& pmf, int top) {
  YardPmf cut = pmf;
  cut.p.resize(static_cast<std::size_t>(std::max(0, std::min(pmf.last(), top) - pmf.first + 1)));
  return cut;
}

}  // namespace

YardPmf sum_of(const YardPmf& depth, const YardPmf& after_catch, int top) {
  const int first = depth.first + after_catch.first;
  const int last = std::min(top, depth.last() + after_catch.last());
  YardPmf sum{first, std::vector<double>(static_cast<std::size_t>(std::max(0, last - first + 1)))};
  for (std::size_t d = 0; d < depth.p.size() && d < sum.p.size(); ++d) {
    const double share = depth.p[d];
    if (share == 0) continue;
    const std::size_t count = std::min(after_catch.p.size(), sum.p.size() - d);
    double* out = sum.p.data() + d;
    for (std::size_t i = 0; i < count; ++i) out[i] += share * after_catch.p[i];
  }
  return sum;
}

Components::Components(const Plan& plan, const Player& player) : plan_(plan) {
  shifted_.reserve(plan.gains.size());
  for (const ShiftedGain& gain : plan.gains)
    shifted_.push_back(shifted(source_of(gain, plan.setting, player), gain.shift));
  gains_.reserve(plan.components.size());
  for (const Component& component : plan.components)
    gains_.push_back(component.is_catch()
                         ? sum_of(shifted_[component.gain], shifted_[component.yac], component.top)
                         : up_to(shifted_[component.gain], component.top));
}

bool Components::add_change_near_goal(std::size_t component, int yards_to_goal, double weight,
                                      std::span<double> out) const {
  const YardPmf& deep = depth(component);
  if (deep.last() < yards_to_goal) return true;
  const YardPmf& after = shifted_[plan_.components[component].yac];
  const int longest = yards_to_goal + plan_.setting.rules.end_zone_depth - 1;
  double reached = 0;
  for (int d = deep.first; d <= std::min(longest, deep.last()); ++d) reached += deep.at(d);
  const YardPmf& open = gains(component);
  const double scale = reached > 0 ? weight * (1 / reached - 1) : -weight;
  const int last = std::min(yards_to_goal - 1, open.last());
  for (int g = open.first; g <= last; ++g)
    out[static_cast<std::size_t>(g - plan_.first_gain)] += scale * open.at(g);
  if (reached <= 0) return false;
  // Catches in the end zone score whatever follows; the open field counted those that lost ground.
  for (int d = yards_to_goal; d <= std::min(longest, deep.last()); ++d)
    for (int g = d + after.first; g < yards_to_goal; ++g)
      out[static_cast<std::size_t>(g - plan_.first_gain)] -=
          weight / reached * deep.at(d) * after.at(g - d);
  return true;
}

}  // namespace callfit::drive
