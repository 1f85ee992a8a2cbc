#include <base/vector_loops.hpp>
#include <drive/components.hpp>
#include <profile/gain_parts.hpp>

#include <algorithm>
#include <numeric>

namespace callfit::drive {
namespace {

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
    add_scaled(sum.p.data() + d, after_catch.p.data(), count, share);
  }
  return sum;
}

Components::Components(const Plan& plan, const Player& player, const Parts& wanted)
    : plan_(plan),
      source_(plan.gains.size(), nullptr),
      shifted_(plan.gains.size()),
      up_to_(plan.gains.size()),
      gains_(plan.components.size()) {
  for (const std::size_t i : wanted.gains) {
    const ShiftedGain& gain = plan.gains[i];
    const auto [source, is_new] = sources_.try_emplace({gain.part, gain.family});
    if (is_new)
      source->second = gain_pmf(*population_of(plan.setting, gain.family, gain.part),
                                bins_of(player, gain.family, gain.part));
    source_[i] = &source->second;
    shifted_[i] = shifted(source->second, gain.shift);
    if (gain.part != GainPart::depth) continue;
    const std::vector<double>& p = shifted_[i].p;
    up_to_[i].resize(p.size());
    std::partial_sum(p.begin(), p.end(), up_to_[i].begin());
  }
  for (const std::size_t i : wanted.components) {
    const Component& component = plan.components[i];
    gains_[i] = component.is_catch()
                    ? sum_of(shifted_[component.gain], shifted_[component.yac], component.top)
                    : up_to(shifted_[component.gain], component.top);
  }
}

Components::Reach Components::reach(std::size_t depth, int yards_to_goal) const {
  const YardPmf& deep = shifted_[depth];
  const int longest = std::min(yards_to_goal + plan_.setting.rules.end_zone_depth - 1, deep.last());
  return {longest, longest < deep.first
                       ? 0.0
                       : up_to_[depth][static_cast<std::size_t>(longest - deep.first)]};
}

bool Components::thrown_to_end_zone(std::size_t component, int yards_to_goal) const {
  const Component& parts = plan_.components[component];
  return parts.is_catch() && shifted_[parts.gain].last() >= yards_to_goal;
}

// Catches in the end zone apart.
double Components::just_reaching_goal(std::size_t component, int yards_to_goal) const {
  double share = gains(component).at(yards_to_goal);
  if (!thrown_to_end_zone(component, yards_to_goal)) return share;
  const Component& parts = plan_.components[component];
  const double reached = reach(parts.gain, yards_to_goal).share;
  if (reached <= 0) return 0;
  const YardPmf& deep = shifted_[parts.gain];
  const YardPmf& after = shifted_[parts.yac];
  const int deepest = std::min(deep.last(), yards_to_goal - after.first);
  for (int d = std::max(yards_to_goal, deep.first); d <= deepest; ++d)
    share -= deep.at(d) * after.at(yards_to_goal - d);
  return std::max(0.0, share) / reached;
}

Components::Change Components::change_near_goal(std::size_t component, int yards_to_goal,
                                                std::vector<double>& pool) const {
  const YardPmf& open = gains(component);
  const bool is_thrown_in = thrown_to_end_zone(component, yards_to_goal);
  const double spotted = spotted_at_goal(plan_, yards_to_goal);
  Change out;
  out.start = pool.size();
  if (!is_thrown_in && spotted <= 0) return out;
  out.first = is_thrown_in ? std::min(open.first, yards_to_goal - 1) : yards_to_goal - 1;
  out.count = static_cast<std::size_t>(yards_to_goal - out.first);
  pool.resize(out.start + out.count);
  const auto from = [&](int gain) { return pool.data() + out.start + (gain - out.first); };
  if (spotted > 0) pool.back() = spotted * just_reaching_goal(component, yards_to_goal);
  if (!is_thrown_in) return out;
  const Component& parts = plan_.components[component];
  const YardPmf& deep = shifted_[parts.gain];
  const YardPmf& after = shifted_[parts.yac];
  const double reached = reach(parts.gain, yards_to_goal).share;
  out.catchable = reached > 0;
  const int last = std::min(yards_to_goal - 1, open.last());
  if (open.first <= last)
    add_scaled(from(open.first), open.p.data(), static_cast<std::size_t>(last - open.first + 1),
               out.catchable ? 1 / reached - 1 : -1);
  if (!out.catchable) return out;
  // Catches in the end zone score whatever follows, and none is made beyond it; the open field
  // counted those that lost ground.
  const int deepest = std::min(deep.last(), yards_to_goal - after.first - 1);
  for (int d = std::max(yards_to_goal, deep.first); d <= deepest; ++d) {
    const int first = d + after.first;
    add_scaled(from(first), after.p.data(), static_cast<std::size_t>(yards_to_goal - first),
               -deep.at(d) / reached);
  }
  return out;
}

}  // namespace callfit::drive
