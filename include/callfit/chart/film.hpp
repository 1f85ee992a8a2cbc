// How much film charted snaps lie on: what charting more of a kind costs in watching.
#pragma once

#include <callfit/chart/snap.hpp>

#include <cstddef>
#include <map>
#include <string>
#include <vector>

namespace callfit {

/// What charts tell of their film. Only snaps with `start` and `end` are counted.
struct Film {
  /// Of all clips, each from the first start to the last end of its snaps, with whatever else lies
  /// between; snaps of no named clip are taken by game.
  double seconds = 0;
  std::map<std::string, std::size_t> snaps;  ///< by play family, as charted

  /// Seconds of such film until `more` further snaps of a family come that came `snaps` times on
  /// it, in proportion. `snaps` at least 1.
  double seconds_for(double more, std::size_t snaps) const;
};

Film film_of(const std::vector<Chart>& charts);

}  // namespace callfit
