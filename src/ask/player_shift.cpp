#include <ask/player_shift.hpp>
#include <callfit/stats/logit.hpp>
#include <profile/cells.hpp>

#include <boost/math/tools/toms748_solve.hpp>

#include <cstdint>

namespace callfit::ask {
namespace {

constexpr double largest_shift = 20;

void move_rate(PlayerFamily& family, std::size_t rate, double shift, bool by_shell,
               const ShellMix& mix) {
  family.rate[rate] = shifted(family.rate[rate], shift);
  for (auto& cell : family.cell) cell[rate] = shifted(cell[rate], shift);
  if (by_shell) balance_shells(family, rate, mix);
}

void move_bins(std::vector<double>& bins, double shift) {
  if (shift == 0 || bins.empty()) return;
  bins = shifted(YardPmf{0, bins}, shift).p;
}

void move_family(PlayerFamily& family, const FamilyShift& shift, const Setting& setting,
                 std::size_t place) {
  if (shift == FamilyShift{}) return;
  const CellTable table = setting.cell_table(setting.families[place]);
  const ShellMix mix = shell_mix(setting);
  for (std::size_t r = 0; r < rate_count; ++r)
    if (shift.rate[r] != 0) move_rate(family, r, shift.rate[r], differs_by_shell(table, r), mix);
  for (std::size_t c = 0; c < cell_count; ++c)
    for (std::size_t r = 0; r < rate_count; ++r)
      if (shift.cell[c][r] != 0) family.cell[c][r] = shifted(family.cell[c][r], shift.cell[c][r]);
  const auto gain = [&shift](GainPart part) { return shift.gain[static_cast<std::size_t>(part)]; };
  move_bins(family.depth_bins, gain(GainPart::depth));
  move_bins(family.yac_bins, gain(GainPart::yac));
  move_bins(family.run_bins, gain(GainPart::run));
}

}  // namespace

PlayerShift no_shift(const Setting& setting) {
  return {std::vector<FamilyShift>(setting.families.size()), 0, 0};
}

Player moved(const Player& player, const PlayerShift& shift, const Setting& setting) {
  Player out = player;
  for (std::size_t f = 0; f < shift.families.size(); ++f)
    move_family(out.families[f], shift.families[f], setting, f);
  move_bins(out.scramble_bins, shift.scramble);
  move_bins(out.sack_bins, shift.sack);
  return out;
}

PlayerFamily moved_family(const Player& player, const PlayerShift& shift, const Setting& setting,
                          std::size_t family) {
  PlayerFamily out = player.families[family];
  if (!shift.families.empty()) move_family(out, shift.families[family], setting, family);
  return out;
}

double mean_gain(const Player& player, const Setting& setting, std::size_t family, GainPart part) {
  const GainPopulation* population = population_of(setting, family, part);
  const std::vector<double>& bins = bins_of(player, family, part);
  return population == nullptr || bins.empty() ? 0 : mean(gain_pmf(*population, bins));
}

double mean_of_shifted(const GainPopulation& population, const std::vector<double>& bins,
                       double shift) {
  std::vector<double> moved_bins = bins;
  move_bins(moved_bins, shift);
  return mean(gain_pmf(population, moved_bins));
}

std::optional<double> shift_to_mean(const GainPopulation& population,
                                    const std::vector<double>& bins, double wanted) {
  const auto off = [&](double shift) { return mean_of_shifted(population, bins, shift) - wanted; };
  if (off(0) == 0) return 0.0;
  const double low = off(-largest_shift);
  const double high = off(largest_shift);
  if (low > 0 || high < 0) return std::nullopt;
  std::uintmax_t steps = 200;
  const auto [below, above] =
      boost::math::tools::toms748_solve(off, -largest_shift, largest_shift, low, high,
                                        boost::math::tools::eps_tolerance<double>(50), steps);
  return (below + above) / 2;
}

}  // namespace callfit::ask
