#include <callfit/drive/after_snap.hpp>
#include <drive/openings.hpp>

namespace callfit {

AfterSnap after_snap(const DriveState& snap, int yards) {
  const drive::SnapState at{snap.down, snap.yards_to_goal - snap.to_go,
                            drive::field_length - snap.yards_to_goal};
  const int own = at.own + yards;
  if (own >= drive::field_length) return {DriveResult::touchdown, {}, false};
  if (own <= 0) return {DriveResult::safety, {}, false};
  const int spot = drive::field_length - own;
  if (at.gained_at(own)) return {std::nullopt, first_down_at(spot), true};
  if (at.down == drive::down_count) return {DriveResult::downs, {}, false};
  return {std::nullopt, {at.down + 1, spot - at.line, spot}, false};
}

}  // namespace callfit
