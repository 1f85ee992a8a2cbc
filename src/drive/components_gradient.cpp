#include <base/vector_loops.hpp>
#include <callfit/stats/logit.hpp>
#include <drive/components_gradient.hpp>
#include <profile/gain_parts.hpp>

#include <algorithm>
#include <cmath>
#include <map>
#include <utility>

namespace callfit::drive {
namespace {

// Sum of by * p: even and odd terms apart, so that no addition waits for the one before.
CALLFIT_WIDE_VECTORS
void add_products(ByWeight& sum, const double* p, const ByWeight* by, int count) {
  ByWeight even = sum;
  ByWeight odd{};
  int i = 0;
  for (; i + 1 < count; i += 2) {
    for (std::size_t j = 0; j < even.size(); ++j) even[j] += by[i][j] * p[i];
    for (std::size_t j = 0; j < odd.size(); ++j) odd[j] += by[i + 1][j] * p[i + 1];
  }
  for (; i < count; ++i)
    for (std::size_t j = 0; j < even.size(); ++j) even[j] += by[i][j] * p[i];
  for (std::size_t j = 0; j < sum.size(); ++j) sum[j] = even[j] + odd[j];
}

// out += by * p for pairs; the two are apart.
CALLFIT_WIDE_VECTORS
void add_scaled(Pair* out, const Pair* p, std::size_t count, double by) {
  CALLFIT_INDEPENDENT_TURNS
  for (std::size_t i = 0; i < count; ++i)
    for (std::size_t c = 0; c < 2; ++c) out[i][c] += by * p[i][c];
}

// Sum of by * p.
Pair sum_of_products(const double* p, const Pair* by, std::size_t count) {
  std::array<Pair, 4> sum{};
  for (std::size_t i = 0; i < count; ++i)
    for (std::size_t c = 0; c < 2; ++c) sum[i % sum.size()][c] += by[i][c] * p[i];
  return {(sum[0][0] + sum[1][0]) + (sum[2][0] + sum[3][0]),
          (sum[0][1] + sum[1][1]) + (sum[2][1] + sum[3][1])};
}

// out += the weight's share of what `by` says; the two are apart.
CALLFIT_WIDE_VECTORS
void add_weighted(Pair* out, const PartWeight& weight, const ByWeight* by, int count) {
  const double keep = weight.keep;
  const double fumble = weight.fumble;
  CALLFIT_INDEPENDENT_TURNS
  for (int i = 0; i < count; ++i)
    for (std::size_t c = 0; c < 2; ++c) out[i][c] += keep * by[i][c] + fumble * by[i][2 + c];
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

void add_bins(const GainPopulation& population, const std::vector<Pair>& by,
              const std::array<std::vector<double>*, 2>& out) {
  const std::vector<double> share = population.bin_shares();
  for (std::vector<double>* bins : out) bins->resize(share.size(), 0.0);
  for (std::size_t i = 0; i < by.size(); ++i) {
    const std::size_t bin = population.bin_of(population.shape.first + static_cast<int>(i));
    if (share[bin] <= 0) continue;
    const double part = population.shape.p[i] / share[bin];
    for (std::size_t c = 0; c < out.size(); ++c) (*out[c])[bin] += by[i][c] * part;
  }
}

}  // namespace

ComponentsGradient::ComponentsGradient(const Plan& plan, const Components& components)
    : plan_(plan), components_(components) {
  for (std::size_t c = 0; c < plan.components.size(); ++c)
    by_gains_.emplace_back(components.gains(c).p.size());
  for (std::size_t g = 0; g < plan.gains.size(); ++g) {
    by_shifted_.emplace_back(components.shifted_gain(g).p.size());
    by_reach_.emplace_back(components.shifted_gain(g).p.size());
  }
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

Components::Change ComponentsGradient::change_of(std::size_t component, int yards_to_goal) {
  pool_.clear();
  return components_.change_near_goal(component, yards_to_goal, pool_);
}

ComponentsGradient::NearGoal::NearGoal(ComponentsGradient& of, std::size_t component,
                                       int yards_to_goal)
    : of_(of),
      component_(component),
      spot_(yards_to_goal),
      change_(of.change_of(component, yards_to_goal)),
      start_(static_cast<std::size_t>(change_.first - of.plan_.first_gain)),
      by_change_(of.by_change_) {
  by_change_.assign(start_ + change_.count, Pair{});
}

ByWeight ComponentsGradient::NearGoal::add(const PartWeight& weight, const ByWeight* by) {
  const int count = static_cast<int>(change_.count);
  ByWeight sum{};
  add_products(sum, of_.pool_.data(), by + start_, count);
  if (weight.keep > 0 || weight.fumble > 0)
    add_weighted(by_change_.data() + start_, weight, by + start_, count);
  if (!change_.catchable) {  // all throws fall incomplete
    const ByWeight& no_gain = by[-of_.plan_.first_gain];
    for (std::size_t j = 0; j < sum.size(); ++j) sum[j] += no_gain[j % 2];
  }
  return sum;
}

// change = (1 / reached - 1) open - caught / reached; minus open where nothing can be caught. To
// the gain before the last, what just reaches the goal line adds its share that is spotted there.
void ComponentsGradient::NearGoal::finish() {
  Pair by_reaching = by_change_.back();
  for (double& by : by_reaching) by *= spotted_at_goal(of_.plan_, spot_);
  const YardPmf& open = of_.components_.gains(component_);
  const auto add_reaching = [&](double scale) {
    if (open.first <= spot_ && spot_ <= open.last())
      add_to(of_.by_gains_[component_][static_cast<std::size_t>(spot_ - open.first)], by_reaching,
             scale);
  };
  if (!of_.components_.thrown_to_end_zone(component_, spot_)) return add_reaching(1);
  const Component& parts = of_.plan_.components[component_];
  const Components::Reach reach = of_.components_.reach(parts.gain, spot_);
  const double scale = change_.catchable ? 1 / reach.share - 1 : -1;
  const auto start = static_cast<std::size_t>(open.first - of_.plan_.first_gain);
  const auto count =
      static_cast<std::size_t>(std::max(0, std::min(spot_ - 1, open.last()) - open.first + 1));
  add_scaled(of_.by_gains_[component_].data(), by_change_.data() + start, count, scale);
  if (!change_.catchable) return;
  add_reaching(1 / reach.share);
  Pair kept = sum_of_products(open.p.data(), by_change_.data() + start, count);
  add_to(kept, by_reaching, open.at(spot_));
  by_change_.push_back(by_reaching);
  finish_caught(reach, kept);
}

// `kept`: the derivative by a common factor of the open field's gains, that at the goal line too.
void ComponentsGradient::NearGoal::finish_caught(const Components::Reach& reach, Pair kept) {
  const Component& parts = of_.plan_.components[component_];
  const YardPmf& deep = of_.components_.shifted_gain(parts.gain);
  const YardPmf& after = of_.components_.shifted_gain(parts.yac);
  std::vector<Pair>& by_depth = of_.by_shifted_[parts.gain];
  std::vector<Pair>& by_after = of_.by_shifted_[parts.yac];
  for (int d = std::max(spot_, deep.first); d <= deep.last() && d + after.first <= spot_; ++d) {
    const Pair* by = by_change_.data() + (d + after.first - of_.plan_.first_gain);
    const auto count =
        std::min(after.p.size(), static_cast<std::size_t>(spot_ - d - after.first + 1));
    const Pair sum = sum_of_products(after.p.data(), by, count);
    add_scaled(by_after.data(), by, count, -deep.at(d) / reach.share);
    add_to(by_depth[static_cast<std::size_t>(d - deep.first)], sum, -1 / reach.share);
    add_to(kept, sum, -deep.at(d));
  }
  add_to(of_.by_reach_[parts.gain][static_cast<std::size_t>(reach.longest - deep.first)], kept,
         -1 / (reach.share * reach.share));
}

// What reaches counts every depth up to its longest.
void ComponentsGradient::add_reaches(std::vector<std::vector<Pair>>& by_shifted) const {
  for (std::size_t g = 0; g < by_reach_.size(); ++g) {
    Pair sum{};
    for (std::size_t i = by_reach_[g].size(); i-- > 0;) {
      add_to(sum, by_reach_[g][i], 1);
      add_to(by_shifted[g][i], sum, 1);
    }
  }
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
    for (std::size_t d = 0; d < depth.size() && d < by.size(); ++d)
      add_scaled(by_shifted[parts.yac].data(), by.data() + d, std::min(after.size(), by.size() - d),
                 depth[d]);
    for (std::size_t i = 0; i < after.size() && i < by.size(); ++i)
      add_scaled(by_shifted[parts.gain].data(), by.data() + i,
                 std::min(depth.size(), by.size() - i), after[i]);
  }
}

void ComponentsGradient::add_to_bins(std::array<DriveGradient*, 2> out) const {
  std::vector<std::vector<Pair>> by_shifted = by_shifted_;
  add_reaches(by_shifted);
  add_sums(by_shifted);
  std::map<std::pair<GainPart, std::size_t>, std::vector<Pair>> by_sources;
  for (const std::size_t g : plan_.all.gains) {
    const ShiftedGain& gain = plan_.gains[g];
    const std::vector<Pair> by = by_source(components_.source(g), gain.shift, by_shifted[g]);
    std::vector<Pair>& sum = by_sources[{gain.part, gain.family}];
    sum.resize(by.size());
    add_scaled(sum.data(), by.data(), by.size(), 1);
  }
  for (const auto& [source, by] : by_sources) {
    const auto& [part, family] = source;
    add_bins(*population_of(plan_.setting, family, part), by,
             {&bins_of(*out[0], family, part), &bins_of(*out[1], family, part)});
  }
}

}  // namespace callfit::drive
