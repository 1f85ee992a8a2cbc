#include <callfit/profile/player.hpp>
#include <callfit/stats/beta.hpp>
#include <profile/cell_moments.hpp>
#include <profile/cells.hpp>

#include <cmath>

namespace callfit {
namespace {

template <class Bins>
std::vector<double> bins_of(const std::optional<GainPopulation>& population, const Bins& bins) {
  return population ? bins(*population) : std::vector<double>{};
}

// A player of the population: `rate` gives a rate's value, `cell` a cell's, `bins` a gain's.
template <class RateValue, class CellValue, class Bins>
Player make_player(const Setting& setting, const RateValue& rate, const CellValue& cell,
                   const Bins& bins) {
  Player player;
  const ShellMix mix = shell_mix(setting);
  for (const FamilyPopulation& population : setting.families) {
    PlayerFamily family;
    for (std::size_t r = 0; r < rate_count; ++r)
      if (population.rates[r]) family.rate[r] = rate(*population.rates[r]);
    lay_out_cells(family, setting.cell_table(population), mix, cell);
    family.depth_bins = bins_of(population.depth, bins);
    family.yac_bins = bins_of(population.yac, bins);
    family.run_bins = bins_of(population.run, bins);
    player.families.push_back(std::move(family));
  }
  player.scramble_bins = bins(setting.scramble_gain);
  player.sack_bins = bins(setting.sack_gain);
  return player;
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
  Player player = make_player(
      setting, [](const RatePopulation& rate) { return rate.mean; },
      [](std::size_t, std::size_t, const CellRate&, double expected) { return expected; },
      [](const GainPopulation& gain) { return gain.bin_shares(); });
  player.name = "average";
  return player;
}

Player draw_from_population(const Setting& setting, std::uint64_t seed, std::uint64_t index) {
  Stream stream(seed, Purpose::population_draw, index);
  return make_player(
      setting,
      [&](const RatePopulation& rate) {
        return draw(Beta::of_mean(rate.mean, rate.strength()), stream);
      },
      [&](std::size_t, std::size_t, const CellRate& cell, double expected) {
        return draw(Beta::of_mean(expected, cell.kappa), stream);
      },
      [&](const GainPopulation& gain) { return draw_dirichlet(gain.alpha(), stream); });
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
