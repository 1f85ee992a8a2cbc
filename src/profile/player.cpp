#include <callfit/profile/player.hpp>
#include <callfit/stats/beta.hpp>
#include <profile/cell_moments.hpp>
#include <profile/cells.hpp>

#include <cmath>

namespace callfit {
namespace {

std::vector<double> shares_of(const std::optional<GainPopulation>& population) {
  return population ? population->bin_shares() : std::vector<double>{};
}

// The gain behind a measure in yards, nullptr when the family has none.
const GainPopulation* gain_behind(const FamilyPopulation& family, Measure measure) {
  const auto& gain = measure == Measure::yards_after_catch ? family.yac : family.run;
  return gain ? &*gain : nullptr;
}

double shift_behind(const Setting& setting, const FamilyPopulation& family, Measure measure,
                    std::optional<Cell> cell) {
  if (!cell) return 0;
  const GainPart part = measure == Measure::yards_after_catch ? GainPart::yac : GainPart::run;
  return setting.cell_gain_shift(family, *cell, part);
}

// Variance between players of a mean gain whose bins are Dirichlet: the variance of the bins' own
// means over (concentration + 1).
double variance_of_mean_gain(const GainPopulation& gain, const YardPmf& pmf) {
  std::vector<double> share(gain.bin_start.size(), 0.0);
  std::vector<double> yards(gain.bin_start.size(), 0.0);
  for (int g = pmf.first; g <= pmf.last(); ++g) {
    share[gain.bin_of(g)] += pmf.at(g);
    yards[gain.bin_of(g)] += pmf.at(g) * g;
  }
  const double centre = mean(pmf);
  double sum = 0;
  for (std::size_t b = 0; b < share.size(); ++b)
    if (share[b] > 0) sum += share[b] * std::pow(yards[b] / share[b] - centre, 2);
  return sum / (gain.concentration + 1);
}

double spread_of_rate(const Setting& setting, const FamilyPopulation& family, std::size_t r,
                      std::optional<Cell> cell) {
  if (!family.rates[r]) return 0;
  const RatePopulation& rate = *family.rates[r];
  if (!cell) return rate.spread;
  const CellTable table = setting.cell_table(family);
  const auto c = static_cast<std::size_t>(*cell);
  if (!table[c][r]) return rate.spread;
  const FamilySource source = source_of(family, table);
  const Moments moments = c < shell_count ? shell_moments(source, r, shell_mix(setting))[c]
                                          : cell_moments(*source.rates[r], *source.cells[c][r]);
  return std::sqrt(moments.variance);
}

}  // namespace

Player average_player(const Setting& setting) {
  const ShellMix mix = shell_mix(setting);
  Player player;
  player.name = "average";
  for (const FamilyPopulation& population : setting.families) {
    PlayerFamily family;
    for (std::size_t r = 0; r < rate_count; ++r)
      if (population.rates[r]) family.rate[r] = population.rates[r]->mean;
    lay_out_cells(
        family, setting.cell_table(population), mix,
        [](std::size_t, std::size_t, const CellRate&, double expected) { return expected; });
    family.depth_bins = shares_of(population.depth);
    family.yac_bins = shares_of(population.yac);
    family.run_bins = shares_of(population.run);
    player.families.push_back(std::move(family));
  }
  player.scramble_bins = setting.scramble_gain.bin_shares();
  player.sack_bins = setting.sack_gain.bin_shares();
  return player;
}

YardPmf gain_pmf(const GainPopulation& population, const std::vector<double>& bins) {
  const std::vector<double> share = population.bin_shares();
  YardPmf pmf = population.shape;
  for (std::size_t i = 0; i < pmf.p.size(); ++i) {
    const std::size_t bin = population.bin_of(pmf.first + static_cast<int>(i));
    if (share[bin] > 0) pmf.p[i] *= bins[bin] / share[bin];
  }
  return pmf;
}

double measure_of(const Player& player, const Setting& setting, std::size_t family, Measure measure,
                  std::optional<Cell> cell) {
  const PlayerFamily& own = player.families[family];
  if (const auto rate = as_rate(measure)) return cell ? own.at(*rate, *cell) : own.at(*rate);
  const FamilyPopulation& population = setting.families[family];
  const GainPopulation* gain = gain_behind(population, measure);
  if (gain == nullptr) return 0;
  const auto& bins = measure == Measure::yards_after_catch ? own.yac_bins : own.run_bins;
  return mean(shifted(gain_pmf(*gain, bins), shift_behind(setting, population, measure, cell)));
}

double spread_of(const Setting& setting, std::size_t family, Measure measure,
                 std::optional<Cell> cell) {
  const FamilyPopulation& population = setting.families[family];
  if (const auto rate = as_rate(measure))
    return spread_of_rate(setting, population, static_cast<std::size_t>(*rate), cell);
  const GainPopulation* gain = gain_behind(population, measure);
  if (gain == nullptr) return 0;
  const double shift = shift_behind(setting, population, measure, cell);
  return std::sqrt(variance_of_mean_gain(*gain, shifted(gain->shape, shift)));
}

}  // namespace callfit
