// What follows from a charted row for the next one: proposals, which the next row shows and whoever
// charts corrects.
#pragma once

#include <callfit/chart/snap.hpp>
#include <callfit/drive/drive.hpp>

#include <optional>

namespace callfit::charting {

/// The next snap of a drive, as it can be foretold.
struct Following {
  DriveState place;
  bool is_first_down = false;  ///< a new series begins with it
};

/// Where the next snap of the drive is taken, by the rules of a snap (after_snap()); nullopt where
/// the drive ended with `row`: a score, a lost ball, downs. A replayed down is taken again from
/// where it was. After a third down that fell short the fourth is proposed, kick or not.
std::optional<Following> following(const Snap& row);

/// No foul moves the ball farther unless it makes a new series: yards; from memory.
inline constexpr int farthest_foul = 15;

/// The state at a spot that was charted where `expected` was proposed: the same down and line to
/// gain where a foul can have moved the ball there, else a new series.
DriveState moved_to(const std::optional<Following>& expected, int yards_to_goal);

/// Whether `next` begins another drive than the row before it ended in.
bool is_new_drive(const Snap& row, const Snap& next);

}  // namespace callfit::charting
