// The same for a shipped setting, whose quarterbacks' rates go together: games against opponents,
// snaps of several levels, families that nobody charted.
#pragma once

#include "calibration.hpp"

namespace callfit::testing {

struct SeasonPlan {
  std::string title;
  std::vector<std::string> levels{"pro"};  ///< by game, taken in turn
  bool opponents_named = true;             ///< a blank one is another in every game
  int opponents = 1'000;                   ///< met in turn: 3 are met again and again
};

inline constexpr int snaps_a_game = 30;

/// Of the professional setting. `games` is how many were charted.
std::vector<Coverage> calibrate_joint(const SeasonPlan& plan, int games, std::size_t players,
                                      std::uint64_t seed, const Setting& truth,
                                      const Setting& believed);

}  // namespace callfit::testing
