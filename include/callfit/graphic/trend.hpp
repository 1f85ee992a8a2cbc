// How rates moved over the games, one small chart a rate.
#pragma once

#include <callfit/graphic/dress.hpp>

#include <string>
#include <vector>

namespace callfit {

struct TrendPoint {
  std::string game;
  double snaps = 0;
  Reading rate;  ///< that game alone
};

struct TrendSeries {
  std::string label;              ///< "completion, quick middle"
  std::vector<TrendPoint> games;  ///< in order
  Reading overall;
  double usual = 0;  ///< the setting's mean
};

struct TrendPicture {
  std::string player;
  std::vector<TrendSeries> series;  ///< 1 to 12
};

Panel trend_panel(const TrendPicture& values, const Wording& wording);

}  // namespace callfit
