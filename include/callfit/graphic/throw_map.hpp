// Where the throws go and how many are caught, on a field drawn to scale.
#pragma once

#include <callfit/graphic/dress.hpp>

#include <string>
#include <vector>

namespace callfit {

/// Throws into one lane (0 left, 1 middle, 2 right) at one depth (0 short, below 10 yards; 1
/// intermediate, 10 to 19; 2 deep, 20 and more).
struct ThrowCell {
  int lane = 0;
  int depth = 0;
  double throws = 0;   ///< charted
  double share = 0;    ///< of all throws with lane and depth charted, in [0, 1]
  Reading completion;  ///< shares
  double usual = 0;    ///< the setting's completion there
};

struct ThrowMap {
  std::string player;
  std::string population;        ///< whose completion is the usual one
  std::vector<ThrowCell> cells;  ///< missing ones count as never thrown to
};

Panel throw_map_panel(const ThrowMap& values, const Wording& wording);

}  // namespace callfit
