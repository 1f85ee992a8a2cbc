#include <callfit/charting/following.hpp>
#include <callfit/drive/after_snap.hpp>

#include <cstdlib>

namespace callfit::charting {

std::optional<Following> following(const Snap& row) {
  const DriveState at{row.down, row.to_go, row.yards_to_goal};
  if (row.result == Result::no_play) return Following{at, false};
  if (row.result == Result::intercepted || row.fumble_lost.value_or(false)) return std::nullopt;
  const AfterSnap after = after_snap(at, row.yards);
  if (after.ended) return std::nullopt;
  return Following{after.next, after.is_first_down};
}

DriveState moved_to(const std::optional<Following>& expected, int yards_to_goal) {
  if (!expected || expected->is_first_down) return first_down_at(yards_to_goal);
  const DriveState& place = expected->place;
  const int line = place.yards_to_goal - place.to_go;
  const bool is_far = std::abs(place.yards_to_goal - yards_to_goal) > farthest_foul;
  if (is_far || yards_to_goal <= line) return first_down_at(yards_to_goal);
  return {place.down, yards_to_goal - line, yards_to_goal};
}

bool is_new_drive(const Snap& row, const Snap& next) {
  if (row.game != next.game) return true;
  const auto expected = following(row);
  if (!expected) return true;
  return next.down == 1 && !expected->is_first_down && expected->place.down != 1 &&
         std::abs(expected->place.yards_to_goal - next.yards_to_goal) > farthest_foul;
}

}  // namespace callfit::charting
