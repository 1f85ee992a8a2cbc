// How an answer moved as games came in, one small chart a value.
#pragma once

#include <callfit/graphic/dress.hpp>

#include <optional>
#include <string>
#include <vector>

namespace callfit {

/// What all tape up to one game says.
struct TrendPoint {
  std::string after;  ///< the game; how the first step is called
  double snaps = 0;   ///< charted in that game
  Reading value;
};

struct TrendSeries {
  std::string label;  ///< "completion, quick middle"
  Unit unit = Unit::share;
  std::vector<TrendPoint> steps;  ///< at least one: the first is the answer before these games
  std::optional<double> usual;    ///< the setting's mean

  /// Whether the last value lies within the first interval.
  bool held() const;
};

struct TrendPicture {
  std::string player;
  std::vector<TrendSeries> series;  ///< 0 to 12
};

Panel trend_panel(const TrendPicture& values, const Wording& wording);

}  // namespace callfit
