// Single real drives, counted into what a setting can be held against.
#pragma once

#include <callfit/validate/observed.hpp>

#include <optional>
#include <string>
#include <vector>

namespace callfit {

struct RealDrive {
  std::string game;                        ///< equal for drives of one game
  int quarter = 1;                         ///< in which it began; 5 and more: overtime
  std::optional<int> start_yards_to_goal;  ///< 1 to 99; nothing where it was not recorded
  double plays = 0;
  DriveResult result = DriveResult::punt;
  double points = 0;        ///< of the offence
  bool kneel_only = false;  ///< nothing but kneeling
};

/// Drives begun in the first or third quarter, as all and by start. Those begun in other quarters,
/// cut off by the end of a half or of nothing but kneeling are left out, counted and named; one
/// without a recorded start counts in "ALL" only. Standard errors take the drives of one game as
/// one cluster (the linearised variance of a ratio mean: W. G. Cochran, Sampling Techniques, 1977,
/// 9A). `source` names the drives in messages. Throws InputError where the drives that are left are
/// of fewer than two games, or none of them has a start.
Observed count_drives(const std::vector<RealDrive>& drives, const std::string& source);

}  // namespace callfit
