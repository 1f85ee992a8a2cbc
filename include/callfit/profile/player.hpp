// One quarterback as plain numbers: a profile's means, or one draw from what the tape leaves
// open, or a member of the setting's population. Fit and drives take this and nothing else.
#pragma once

#include <callfit/chart/rate.hpp>
#include <callfit/setting/setting.hpp>

#include <array>
#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

namespace callfit {

/// Rates of kinds that do not apply (completion of a handoff) are 0.
struct PlayerFamily {
  std::array<double, rate_count> rate{};  ///< the family's overall rates, in [0, 1]
  /// cell[c][r]: rate r under condition c; equal to rate[r] where the setting has no such cell.
  /// Over the setting's mix of shells (shell_mix) the shells' rates average to rate[r].
  std::array<std::array<double, rate_count>, cell_count> cell{};
  /// Probabilities of the bins of the setting's gain populations; each sums to 1 or is empty.
  std::vector<double> depth_bins, yac_bins, run_bins;

  double at(Rate r) const { return rate[static_cast<std::size_t>(r)]; }
  double at(Rate r, Cell c) const {
    return cell[static_cast<std::size_t>(c)][static_cast<std::size_t>(r)];
  }
};

/// `families` is indexed like Setting::families.
struct Player {
  std::string name;
  std::vector<PlayerFamily> families;
  std::vector<double> scramble_bins, sack_bins;
};

/// The population's own mean player: every rate at its mean, every cell at its shifted mean.
Player average_player(const Setting& setting);

/// Gain distribution of a player's bins laid over the population's shape.
YardPmf gain_pmf(const GainPopulation& population, const std::vector<double>& bins);

/// The player's value of a measure in a setting's family. A mean in yards for yards_after_catch
/// and run_gain (0 where the family has none), else a share.
double measure_of(const Player& player, const Setting& setting, std::size_t family, Measure measure,
                  std::optional<Cell> cell = std::nullopt);

/// Standard deviation of that measure between the players of the setting's population, 0 where the
/// family has no such measure. For a mean in yards it is the Dirichlet's: sqrt(variance of the
/// bins' means / (concentration + 1)).
double spread_of(const Setting& setting, std::size_t family, Measure measure,
                 std::optional<Cell> cell = std::nullopt);

}  // namespace callfit
