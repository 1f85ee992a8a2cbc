#include <callfit/stats/logit.hpp>
#include <drive/components_gradient.hpp>

#include <algorithm>

namespace callfit::drive {
namespace {

// Derivatives by a pmf from those by shifted(pmf, shift): P(G >= g) moves by proportional odds, the
// differences of the moved ones are the new pmf.
std::vector<double> by_source(const YardPmf& pmf, double shift, const std::vector<double>& by) {
  if (shift == 0) return by;
  std::vector<double> out(by.size(), 0.0);
  double at_least = 1;
  double sum = 0;
  for (std::size_t j = 1; j < by.size(); ++j) {
    at_least -= pmf.p[j - 1];
    const double at = std::clamp(at_least, 0.0, 1.0);
    const double moved = shifted(at, shift);
    if (at > smallest_share && at < 1 - smallest_share)
      sum += (by[j] - by[j - 1]) * moved * (1 - moved) / (at * (1 - at));
    out[j] = sum;
  }
  return out;
}

int longest_throw(const YardPmf& depth, int yards_to_goal, const Plan& plan) {
  return std::min(yards_to_goal + plan.setting.rules.end_zone_depth - 1, depth.last());
}

// Share of throws that come down before the end zone's back line.
double reached_of(const YardPmf& depth, int yards_to_goal, const Plan& plan) {
  double sum = 0;
  for (int d = depth.first; d <= longest_throw(depth, yards_to_goal, plan); ++d) sum += depth.at(d);
  return sum;
}

void add_bins(const GainPopulation& population, const std::vector<double>& by,
              std::vector<double>& out) {
  const std::vector<double> share = population.bin_shares();
  out.resize(share.size(), 0.0);
  for (std::size_t i = 0; i < by.size(); ++i) {
    const std::size_t bin = population.bin_of(population.shape.first + static_cast<int>(i));
    if (share[bin] > 0) out[bin] += by[i] * population.shape.p[i] / share[bin];
  }
}

}  // namespace

ComponentsGradient::ComponentsGradient(const Plan& plan, const Player& player,
                                       const Components& components)
    : plan_(plan), player_(player), components_(components) {
  for (std::size_t c = 0; c < plan.components.size(); ++c)
    by_gains_.emplace_back(components.gains(c).p.size(), 0.0);
  for (std::size_t g = 0; g < plan.gains.size(); ++g)
    by_shifted_.emplace_back(components.shifted_gain(g).p.size(), 0.0);
}

double ComponentsGradient::add_open(std::size_t component, double weight,
                                    std::span<const double> by) {
  const YardPmf& gains = components_.gains(component);
  const int start = gains.first - plan_.first_gain;
  const int count = std::min(static_cast<int>(gains.p.size()), static_cast<int>(by.size()) - start);
  double by_weight = 0;
  for (int i = 0; i < count; ++i) {
    const auto g = static_cast<std::size_t>(i);
    const double here = by[static_cast<std::size_t>(start + i)];
    by_weight += here * gains.p[g];
    by_gains_[component][g] += weight * here;
  }
  return by_weight;
}

// No throw is short enough: the open field's gains are taken out again.
double ComponentsGradient::add_missed(std::size_t component, double weight,
                                      std::span<const double> by, int last) {
  const int first = components_.gains(component).first;
  const auto count = static_cast<std::size_t>(std::max(0, last + 1 - plan_.first_gain));
  if (last < first) return 0;
  return -add_open(component, -weight, by.first(std::min(count, by.size())));
}

bool ComponentsGradient::uncatchable(std::size_t component, int yards_to_goal) const {
  const Component& parts = plan_.components[component];
  if (!parts.is_catch()) return false;
  const YardPmf& depth = components_.shifted_gain(parts.gain);
  return depth.last() >= yards_to_goal && reached_of(depth, yards_to_goal, plan_) <= 0;
}

double ComponentsGradient::add_near_goal(std::size_t component, int yards_to_goal, double weight,
                                         std::span<const double> by) {
  const Component& parts = plan_.components[component];
  const YardPmf& depth = components_.shifted_gain(parts.gain);
  if (depth.last() < yards_to_goal) return 0;
  const YardPmf& after = components_.shifted_gain(parts.yac);
  const int longest = longest_throw(depth, yards_to_goal, plan_);
  const double reached = reached_of(depth, yards_to_goal, plan_);
  const int last = std::min(yards_to_goal - 1, components_.gains(component).last());
  if (reached <= 0) return add_missed(component, weight, by, last);

  // change = weight ((1 / reached - 1) open - caught / reached)
  const auto count = static_cast<std::size_t>(std::max(0, last + 1 - plan_.first_gain));
  const double open = add_open(component, weight * (1 / reached - 1), by.first(count));
  double caught = 0;
  std::vector<double>& by_depth = by_shifted_[parts.gain];
  std::vector<double>& by_after = by_shifted_[parts.yac];
  for (int d = std::max(yards_to_goal, depth.first); d <= depth.last(); ++d) {
    double sum = 0;
    for (int g = d + after.first; g < yards_to_goal; ++g) {
      const double here = by[static_cast<std::size_t>(g - plan_.first_gain)];
      sum += here * after.at(g - d);
      by_after[static_cast<std::size_t>(g - d - after.first)] -=
          weight / reached * here * depth.at(d);
    }
    by_depth[static_cast<std::size_t>(d - depth.first)] -= weight / reached * sum;
    caught += depth.at(d) * sum;
  }
  const double by_reached = -weight * (open - caught) / (reached * reached);
  for (int d = depth.first; d <= longest; ++d)
    by_depth[static_cast<std::size_t>(d - depth.first)] += by_reached;
  return (1 / reached - 1) * open - caught / reached;
}

// The reverse of sum_of().
void ComponentsGradient::add_sums(std::vector<std::vector<double>>& by_shifted) const {
  for (std::size_t c = 0; c < plan_.components.size(); ++c) {
    const Component& parts = plan_.components[c];
    const std::vector<double>& by = by_gains_[c];
    if (!parts.is_catch()) {
      for (std::size_t i = 0; i < by.size(); ++i) by_shifted[parts.gain][i] += by[i];
      continue;
    }
    const std::vector<double>& depth = components_.shifted_gain(parts.gain).p;
    const std::vector<double>& after = components_.shifted_gain(parts.yac).p;
    for (std::size_t d = 0; d < depth.size() && d < by.size(); ++d)
      for (std::size_t i = 0; i < after.size() && d + i < by.size(); ++i) {
        by_shifted[parts.gain][d] += by[d + i] * after[i];
        by_shifted[parts.yac][i] += by[d + i] * depth[d];
      }
  }
}

void ComponentsGradient::add_to_bins(DriveGradient& out) const {
  std::vector<std::vector<double>> by_shifted = by_shifted_;
  add_sums(by_shifted);
  for (std::size_t g = 0; g < plan_.gains.size(); ++g) {
    const ShiftedGain& gain = plan_.gains[g];
    const YardPmf source = source_of(gain, plan_.setting, player_);
    const std::vector<double> by = by_source(source, gain.shift, by_shifted[g]);
    if (gain.part == GainPart::scramble) {
      add_bins(plan_.setting.scramble_gain, by, out.scramble_bins);
    } else if (gain.part == GainPart::sack) {
      add_bins(plan_.setting.sack_gain, by, out.sack_bins);
    } else {
      const FamilyPopulation& family = plan_.setting.families[gain.family];
      FamilyGradient& own = out.families[gain.family];
      if (gain.part == GainPart::depth) add_bins(*family.depth, by, own.depth_bins);
      if (gain.part == GainPart::yac) add_bins(*family.yac, by, own.yac_bins);
      if (gain.part == GainPart::run) add_bins(*family.run, by, own.run_bins);
    }
  }
}

}  // namespace callfit::drive
