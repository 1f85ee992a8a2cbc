// Charts of quarterbacks whose true rates are known: the forward half of simulation-based
// calibration.
#pragma once

#include <callfit/base/random.hpp>
#include <callfit/chart/snap.hpp>
#include <callfit/profile/player.hpp>
#include <callfit/setting/setting.hpp>

#include <string>
#include <vector>

namespace callfit::testing {

/// What a snap's yards show. Success, explosive plays and yardage are three views of one number,
/// so each needs charts of its own.
enum class Yards { gains, success, explosive };

struct ChartPlan {
  int snaps = 50;  ///< of the pass family, and as many of the run family
  bool shells_charted = true;
  /// Snaps differ by platform (moving w.p. 0.4, charted) instead of by shell.
  bool by_platform = false;
  bool depth_charted = true;
  std::vector<std::string> levels{"pro"};  ///< taken in turn
  Yards yards = Yards::gains;
};

inline constexpr double moving_share = 0.4;

/// Snaps are drawn as the model says they arise: shell (or platform), then the outcome at that
/// cell's rates moved by the level's shift, then yards.
Chart chart_of(const Player& player, const Setting& setting, const ChartPlan& plan, Stream& stream);

}  // namespace callfit::testing
