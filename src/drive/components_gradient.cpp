#include <base/vector_loops.hpp>
#include <callfit/stats/logit.hpp>
#include <drive/components_gradient.hpp>

#include <algorithm>
#include <cmath>

namespace callfit::drive {
namespace {

// Sum of by * p.
CALLFIT_WIDE_VECTORS
void add_products(ByWeight& sum, const double* p, const ByWeight* by, int count) {
  ByWeight total = sum;
  for (int i = 0; i < count; ++i)
    for (std::size_t j = 0; j < total.size(); ++j) total[j] += by[i][j] * p[i];
  sum = total;
}

// out += the weight's share of what `by` says; the two are apart.
CALLFIT_WIDE_VECTORS
void add_weighted(Pair* out, const PartWeight& weight, const ByWeight* by, int count) {
  const double keep = weight.keep;
  const double fumble = weight.fumble;
  CALLFIT_INDEPENDENT_TURNS
  for (int i = 0; i < count; ++i)
    for (std::size_t c = 0; c < 2; ++c)
      out[i][c] += keep * by[i][c] + fumble * by[i][2 + c];
}

void add_to(Pair& sum, const Pair& more, double by) {
  for (std::size_t c = 0; c < sum.size(); ++c) sum[c] += by * more[c];
}

// Derivatives by a pmf from those by shifted(pmf, shift): P(G >= g) moves by proportional odds, the
// differences of the moved ones are the new pmf.
std::vector<Pair> by_source(const YardPmf& pmf, double shift, const std::vector<Pair>& by) {
  if (shift == 0) return by;
  std::vector<Pair> out(by.size());
  const double odds = std::exp(shift);
  double at_least = 1;
  Pair sum{};
  for (std::size_t j = 1; j < by.size(); ++j) {
    at_least -= pmf.p[j - 1];
    const double at = std::clamp(at_least, 0.0, 1.0);
    const double stretch = 1 - at + odds * at;
    if (at > smallest_share && at < 1 - smallest_share)
      for (std::size_t c = 0; c < sum.size(); ++c)
        sum[c] += (by[j][c] - by[j - 1][c]) * odds / (stretch * stretch);
    out[j] = sum;
  }
  return out;
}

std::vector<double>& gradient_bins_of(const ShiftedGain& gain, DriveGradient& out) {
  if (gain.part == GainPart::scramble) return out.scramble_bins;
  if (gain.part == GainPart::sack) return out.sack_bins;
  FamilyGradient& own = out.families[gain.family];
  if (gain.part == GainPart::depth) return own.depth_bins;
  return gain.part == GainPart::yac ? own.yac_bins : own.run_bins;
}

void add_bins(const GainPopulation& population, const std::vector<Pair>& by, std::size_t column,
              std::vector<double>& out) {
  const std::vector<double> share = population.bin_shares();
  out.resize(share.size(), 0.0);
  for (std::size_t i = 0; i < by.size(); ++i) {
    const std::size_t bin = population.bin_of(population.shape.first + static_cast<int>(i));
    if (share[bin] > 0) out[bin] += by[i][column] * population.shape.p[i] / share[bin];
  }
}

}  // namespace

ComponentsGradient::ComponentsGradient(const Plan& plan, const Components& components)
    : plan_(plan), components_(components) {
  for (std::size_t c = 0; c < plan.components.size(); ++c)
    by_gains_.emplace_back(components.gains(c).p.size());
  for (std::size_t g = 0; g < plan.gains.size(); ++g)
    by_shifted_.emplace_back(components.shifted_gain(g).p.size());
}

ByWeight ComponentsGradient::add_open(std::size_t component, const PartWeight& weight,
                                      const ByWeight* by, int count) {
  const YardPmf& gains = components_.gains(component);
  const int start = gains.first - plan_.first_gain;
  const int terms = std::min(static_cast<int>(gains.p.size()), count - start);
  ByWeight sum{};
  add_products(sum, gains.p.data(), by + start, terms);
  if (weight.keep > 0 || weight.fumble > 0)
    add_weighted(by_gains_[component].data(), weight, by + start, terms);
  return sum;
}

ComponentsGradient::NearGoal::NearGoal(ComponentsGradient& of, std::size_t component,
                                       int yards_to_goal)
    : of_(of),
      component_(component),
      spot_(yards_to_goal),
      change_(static_cast<std::size_t>(yards_to_goal - of.plan_.first_gain), 0.0),
      by_change_(change_.size()) {
  std::vector<double> fumbled(change_.size(), 0.0);  // the same change, of no weight
  const int first = of.plan_.first_gain;
  catchable_ = of.components_.add_change_near_goal(
      component, yards_to_goal, {1, change_.data() - first}, {0, fumbled.data() - first});
}

ByWeight ComponentsGradient::NearGoal::add(const PartWeight& weight, const ByWeight* by) {
  const int count = static_cast<int>(change_.size());
  ByWeight sum{};
  add_products(sum, change_.data(), by, count);
  if (weight.keep > 0 || weight.fumble > 0) add_weighted(by_change_.data(), weight, by, count);
  if (!catchable_) {  // all throws fall incomplete
    const ByWeight& no_gain = by[-of_.plan_.first_gain];
    for (std::size_t j = 0; j < sum.size(); ++j) sum[j] += no_gain[j % 2];
  }
  return sum;
}

// change = (1 / reached - 1) open - caught / reached; minus open where nothing can be caught.
void ComponentsGradient::NearGoal::finish() {
  const Component& parts = of_.plan_.components[component_];
  const YardPmf& open = of_.components_.gains(component_);
  const Components::Reach reach = of_.components_.reach(parts.gain, spot_);
  const double scale = catchable_ ? 1 / reach.share - 1 : -1;
  std::vector<Pair>& by_open = of_.by_gains_[component_];
  const int last = std::min(spot_ - 1, open.last());
  for (int g = open.first; g <= last; ++g)
    add_to(by_open[static_cast<std::size_t>(g - open.first)],
           by_change_[static_cast<std::size_t>(g - of_.plan_.first_gain)], scale);
  if (catchable_) finish_caught(reach, of_.components_.shifted_gain(parts.gain));
}

void ComponentsGradient::NearGoal::finish_caught(const Components::Reach& reach,
                                                 const YardPmf& deep) {
  const Component& parts = of_.plan_.components[component_];
  const YardPmf& open = of_.components_.gains(component_);
  const YardPmf& after = of_.components_.shifted_gain(parts.yac);
  std::vector<Pair>& by_depth = of_.by_shifted_[parts.gain];
  std::vector<Pair>& by_after = of_.by_shifted_[parts.yac];
  const auto by = [&](int g) -> const Pair& {
    return by_change_[static_cast<std::size_t>(g - of_.plan_.first_gain)];
  };
  Pair kept{};  // of open less caught
  for (int g = open.first; g <= std::min(spot_ - 1, open.last()); ++g)
    add_to(kept, by(g), open.at(g));
  for (int d = std::max(spot_, deep.first); d <= deep.last() && d + after.first < spot_; ++d) {
    Pair sum{};
    for (int g = d + after.first; g < spot_; ++g) {
      add_to(sum, by(g), after.at(g - d));
      add_to(by_after[static_cast<std::size_t>(g - d - after.first)], by(g),
             -deep.at(d) / reach.share);
    }
    add_to(by_depth[static_cast<std::size_t>(d - deep.first)], sum, -1 / reach.share);
    add_to(kept, sum, -deep.at(d));
  }
  for (int d = deep.first; d <= reach.longest; ++d)
    add_to(by_depth[static_cast<std::size_t>(d - deep.first)], kept,
           -1 / (reach.share * reach.share));
}

// The reverse of sum_of().
void ComponentsGradient::add_sums(std::vector<std::vector<Pair>>& by_shifted) const {
  for (std::size_t c = 0; c < plan_.components.size(); ++c) {
    const Component& parts = plan_.components[c];
    const std::vector<Pair>& by = by_gains_[c];
    if (!parts.is_catch()) {
      for (std::size_t i = 0; i < by.size(); ++i) add_to(by_shifted[parts.gain][i], by[i], 1);
      continue;
    }
    const std::vector<double>& depth = components_.shifted_gain(parts.gain).p;
    const std::vector<double>& after = components_.shifted_gain(parts.yac).p;
    std::vector<Pair>& by_after = by_shifted[parts.yac];
    for (std::size_t d = 0; d < depth.size() && d < by.size(); ++d) {
      Pair sum{};
      for (std::size_t i = 0; i < after.size() && d + i < by.size(); ++i) {
        add_to(sum, by[d + i], after[i]);
        add_to(by_after[i], by[d + i], depth[d]);
      }
      add_to(by_shifted[parts.gain][d], sum, 1);
    }
  }
}

void ComponentsGradient::add_to_bins(std::array<DriveGradient*, 2> out) const {
  std::vector<std::vector<Pair>> by_shifted = by_shifted_;
  add_sums(by_shifted);
  for (const std::size_t g : plan_.all.gains) {
    const ShiftedGain& gain = plan_.gains[g];
    const std::vector<Pair> by = by_source(components_.source(g), gain.shift, by_shifted[g]);
    for (std::size_t c = 0; c < out.size(); ++c)
      add_bins(population_of(gain, plan_.setting), by, c, gradient_bins_of(gain, *out[c]));
  }
}

}  // namespace callfit::drive
