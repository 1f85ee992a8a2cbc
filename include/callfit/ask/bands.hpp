// Expected points by yard line and drive results, with what the tape leaves open.
#pragma once

#include <callfit/ask/comparison.hpp>
#include <callfit/ask/matchup.hpp>
#include <callfit/profile/profile.hpp>

#include <array>
#include <vector>

namespace callfit {

struct DriveBands {
  /// First and ten (or goal to go) at each yards_to_goal, size 100, index 0 unused.
  std::vector<UncertainValue> points_at, net_points_at;
  std::array<UncertainValue, drive_result_count> result;  ///< shares over the setting's starts
  UncertainValue points;                                  ///< per drive over the starts
};

DriveBands drive_bands(const Profile& profile, const Matchup& matchup, const DrawOptions& options,
                       const Progress& progress = {});

}  // namespace callfit
