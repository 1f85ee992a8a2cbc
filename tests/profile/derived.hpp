// Success and explosive rates as they follow from completions, sacks, scrambles and yardage,
// beside the counted ones.
#pragma once

#include <callfit/chart/snap.hpp>
#include <callfit/profile/profile.hpp>

#include <cstddef>
#include <vector>

namespace callfit {

/// Where a snap was played: what a gain is worth depends on it.
struct Spot {
  int down = 1;
  int to_go = 10;
  int yards_to_goal = 75;
};

/// The spots of a family's charted snaps, no_play rows left out.
std::vector<Spot> spots_of(const std::vector<Chart>& charts, const std::string& family);

/// P(success) or P(explosive) of a snap of the family, averaged over `spots`, from the player's
/// rates and gain distributions: a dropback is a sack, a scramble or a throw; a completion gains
/// depth plus yards after the catch, a throw cannot land beyond the back line, and every gain stops
/// at the goal line. `rate` is Rate::success or Rate::explosive; needs at least one spot.
double derived_rate(const Player& player, const Setting& setting, std::size_t family, Rate rate,
                    const std::vector<Spot>& spots);

}  // namespace callfit
