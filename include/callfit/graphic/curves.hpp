// Two pictures that are curves with a band: expected points by yard line, and an answer swept over
// one quantity.
#pragma once

#include <callfit/graphic/dress.hpp>

#include <optional>
#include <string>
#include <vector>

namespace callfit {

struct CurvePoint {
  double x = 0;
  Reading y;
};

struct Curve {
  std::string label;
  std::vector<CurvePoint> points;  ///< x ascending, at least 2
};

/// Expected points of first and ten; x is yards_to_goal (1 to 99).
struct PointsByYard {
  std::string scheme;
  bool net = true;            ///< net of what the opponent then expects
  std::vector<Curve> curves;  ///< 1 or 2 players
};

Panel points_by_yard_panel(const PointsByYard& values, const Wording& wording);

/// Points per drive (or another answer) while one quantity varies.
struct SweepCurve {
  std::string player;
  std::string quantity;  ///< "completion of deep outside throws"
  bool quantity_is_share = true;
  std::string answer;  ///< "points per drive"
  bool answer_is_share = false;
  Curve curve;
  std::optional<double> now;         ///< where the quantity stands today
  std::optional<Reading> now_range;  ///< and how surely
  std::optional<double> reach;       ///< answer to be reached, such as the other starter's points
  std::string reach_label;
};

Panel sweep_panel(const SweepCurve& values, const Wording& wording);

}  // namespace callfit
