// What one snap leads to by the rules that drives are played by, for whoever follows a real drive.
#pragma once

#include <callfit/drive/drive.hpp>

#include <optional>

namespace callfit {

struct AfterSnap {
  std::optional<DriveResult> ended;  ///< touchdown, safety or downs; nullopt: the drive goes on
  DriveState next;                   ///< where it goes on
  bool is_first_down = false;        ///< a new series begins there
};

/// After a play that counted, kept the ball and gained `yards` from `snap` (down 1 to 4, to_go 1 to
/// yards_to_goal, yards_to_goal 1 to 99). Spots are whole yards, so that a gain of the distance
/// makes the first down. Any gain to the goal line or beyond is a touchdown, any loss to the own
/// one a safety.
AfterSnap after_snap(const DriveState& snap, int yards);

}  // namespace callfit
