#include <profile/cells.hpp>

#include <ask/slopes.hpp>

#include <algorithm>
#include <cmath>

namespace callfit::ask {
namespace {

double variance_of(double share) { return share * (1 - share); }

// Change of each bin per unit of a proportional-odds move: P(bin >= b) grows by its variance.
std::vector<double> bins_moving(const std::vector<double>& bins) {
  std::vector<double> slope(bins.size());
  double at_least = 1;
  for (std::size_t b = 0; b < bins.size(); ++b) {
    const double beyond = b + 1 == bins.size() ? 0 : at_least - bins[b];
    slope[b] = variance_of(at_least) - variance_of(beyond);
    at_least = beyond;
  }
  return slope;
}

double dot(const std::vector<double>& a, const std::vector<double>& b) {
  double sum = 0;
  for (std::size_t i = 0; i < a.size() && i < b.size(); ++i) sum += a[i] * b[i];
  return sum;
}

double one_shell_slope(const std::vector<double>& by, const std::vector<double>& share,
                       std::size_t family) {
  const double rest = 1 - share[family];
  if (rest <= 0) return 0;
  double others = 0;
  for (std::size_t f = 0; f < share.size(); ++f)
    if (f != family) others += share[f] * by[f];
  return by[family] - others / rest;
}

}  // namespace

double rate_slope(const DriveGradient& gradient, const Player& player, const Setting& setting,
                  std::size_t family, Rate rate) {
  const auto r = static_cast<std::size_t>(rate);
  const PlayerFamily& own = player.families[family];
  const FamilyGradient& by = gradient.families[family];
  double spread = variance_of(own.rate[r]);
  if (differs_by_shell(setting.cell_table(setting.families[family]), r)) {
    const ShellMix mix = shell_mix(setting);
    spread = 0;
    for (std::size_t s = 0; s < shell_count; ++s) spread += mix[s] * variance_of(own.cell[s][r]);
  }
  double slope = by.rate[r];
  for (std::size_t s = 0; s < shell_count && spread > 0; ++s)
    slope += by.shell[s][r] * variance_of(own.cell[s][r]) / spread;
  return slope;
}

double shell_slope(const DriveGradient& gradient, std::size_t family, Rate rate,
                   std::size_t shell) {
  return gradient.families[family].shell[shell][static_cast<std::size_t>(rate)];
}

double gain_slope(const DriveGradient& gradient, const Player& player, const Setting& setting,
                  std::size_t family, GainPart part) {
  const std::vector<double>& bins = bins_of(player, family, part);
  const GainPopulation* population = population_of(setting, family, part);
  if (bins.empty() || population == nullptr) return 0;
  const std::vector<double> moving = bins_moving(bins);
  const double yards = dot(population->bin_means(), moving);
  return yards > 0 ? dot(bins_of(gradient, family, part), moving) / yards : 0;
}

double call_slope(const DriveGradient& gradient, const Scheme& scheme, std::size_t situation,
                  std::size_t family, std::size_t shell) {
  const CallSituation& calls = scheme.situations[situation];
  double slope = 0;
  for (std::size_t s = 0; s < shell_count; ++s)
    if (shell == shell_count || shell == s)
      slope += one_shell_slope(gradient.call[situation][s], calls.against(static_cast<Shell>(s)),
                               family);
  return slope;
}

double gain_spread(const GainPopulation& population) {
  const std::vector<double> share = population.bin_shares();
  const std::vector<double> yards = population.bin_means();
  const double centre = mean(population.shape);
  double sum = 0;
  for (std::size_t b = 0; b < share.size(); ++b)
    sum += share[b] * (yards[b] - centre) * (yards[b] - centre);
  return std::sqrt(sum / (population.concentration + 1));
}

double measure_slope(const DriveGradient& gradient, const Player& player, const Setting& setting,
                     std::size_t family, const Demand& demand) {
  const auto rate = as_rate(demand.measure);
  if (rate && !demand.cell) return rate_slope(gradient, player, setting, family, *rate);
  if (rate) {
    const auto shell = static_cast<std::size_t>(*demand.cell);
    return shell < shell_count ? shell_slope(gradient, family, *rate, shell) : 0;
  }
  if (demand.cell) return 0;
  const bool yac = demand.measure == Measure::yards_after_catch;
  return gain_slope(gradient, player, setting, family, yac ? GainPart::yac : GainPart::run);
}

void weigh_by_points(Scheme& scheme, const Matchup& matchup, const Setting& ground,
                     const Player& player, const DriveGradient& net_points) {
  for (std::size_t d = 0; d < scheme.demands.size(); ++d) {
    Demand& demand = scheme.demands[d];
    const double called = matchup.bound.call_share[demand.family];
    const double slope = measure_slope(net_points, player, ground,
                                       matchup.bound.setting_family[demand.family], demand);
    const double scored = (demand.more_is_better ? 1 : -1) * slope * matchup.bound.spread[d];
    demand.weight = called > 0 ? std::max(0.0, scored) / called : 0;
  }
}

}  // namespace callfit::ask
