// A quarterback moved: the same player with some rates or gains better or worse.
//
// Moves are on the log-odds scale, so that one move fits the posterior mean and every draw: draws
// keep their log-odds distance to the mean. Gains move by proportional odds, as in the settings.
#pragma once

#include <callfit/profile/player.hpp>
#include <profile/gain_parts.hpp>

#include <array>
#include <optional>
#include <vector>

namespace callfit::ask {

/// Log-odds moves of one family; 0 leaves a value untouched to the last bit.
struct FamilyShift {
  std::array<double, rate_count> rate{};  ///< of the family's rate; its cells move along
  /// On top of that, of one cell alone; the family's own rate stays.
  std::array<std::array<double, rate_count>, cell_count> cell{};
  std::array<double, gain_part_count> gain{};  ///< depth, yac and run of the family

  bool operator==(const FamilyShift&) const = default;
};

/// `families` is indexed like Setting::families, or empty for no move at all.
struct PlayerShift {
  std::vector<FamilyShift> families;
  double scramble = 0, sack = 0;  ///< of the gains that all families share
};

PlayerShift no_shift(const Setting& setting);

/// The player moved. Where a rate differs by shell, the shells move together until they average to
/// the moved rate over the setting's shell mix (the same balance as in a profile).
Player moved(const Player& player, const PlayerShift& shift, const Setting& setting);
/// One of his families moved.
PlayerFamily moved_family(const Player& player, const PlayerShift& shift, const Setting& setting,
                          std::size_t family);

/// The move of a gain part, of a PlayerShift that may be const.
template <class Shift>
auto& gain_move(Shift& shift, std::size_t family, GainPart part) {
  if (part == GainPart::scramble) return shift.scramble;
  if (part == GainPart::sack) return shift.sack;
  return shift.families[family].gain[static_cast<std::size_t>(part)];
}

/// Mean yards of a gain part, 0 where the family does not have it.
double mean_gain(const Player& player, const Setting& setting, std::size_t family, GainPart part);

/// Mean yards of bins moved by proportional odds.
double mean_of_shifted(const GainPopulation& population, const std::vector<double>& bins,
                       double shift);

/// The move that brings the mean to `wanted` yards, by bracketing (TOMS 748, Alefeld, Potra & Shi
/// 1995, through Boost.Math); nullopt where no move within +-20 does.
std::optional<double> shift_to_mean(const GainPopulation& population,
                                    const std::vector<double>& bins, double wanted);

}  // namespace callfit::ask
