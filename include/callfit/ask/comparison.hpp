// Quarterbacks under one scheme, with what the tape leaves open carried through to points.
#pragma once

#include <callfit/ask/matchup.hpp>
#include <callfit/base/parallel.hpp>
#include <callfit/profile/profile.hpp>

#include <cstddef>
#include <cstdint>
#include <span>
#include <vector>

namespace callfit {

struct DrawOptions {
  std::uint64_t seed = 0;
  std::size_t draws = 2000;  ///< posterior draws of each profile
  unsigned threads = 0;
};

/// A value at the posterior means, and the central 90% of its posterior.
struct UncertainValue {
  double value = 0;
  Interval interval90;
};

/// What one profile is worth in a matchup. Points are per drive.
struct Worth {
  UncertainValue points;
  UncertainValue net_points;
  std::vector<DrivePoints> draws;  ///< one per posterior draw
};

Worth worth_of(const Profile& profile, const Matchup& matchup, const DrawOptions& options,
               const Progress& progress = {});

/// Difference `first` minus `second`, per drive and per game (drives_per_game of the setting).
struct Difference {
  UncertainValue points_per_drive, points_per_game;
  UncertainValue net_per_drive, net_per_game;
  double chance_first_better = 0.5;  ///< share of draws in which the net difference is above 0
};

/// Draws are paired by index; the two posteriors are independent, so any pairing serves.
Difference difference_of(const Worth& first, const Worth& second, double drives_per_game);

}  // namespace callfit
