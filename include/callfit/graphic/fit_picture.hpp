// Who fits which scheme, and where not: families as strips, the estimate as a ball that has to
// reach the line.
#pragma once

#include <callfit/graphic/dress.hpp>

#include <optional>
#include <string>
#include <vector>

namespace callfit {

/// One demand of a family held against the player.
struct DemandLine {
  std::string label;  ///< "completion", "completion, one high"
  Unit unit = Unit::share;
  Reading estimate;
  double asked = 0;
  double spread = 1;  ///< between quarterbacks, in the unit of the estimate, > 0
  bool more_is_better = true;
  double weight = 1;  ///< relative to other demands of the family
};

struct FamilyStrip {
  std::string label;
  double call_share = 0;            ///< in [0, 1]
  double snaps = 0;                 ///< charted; 0: never seen, the estimate is the setting's
  std::vector<DemandLine> demands;  ///< may be empty (a family that asks nothing)
};

/// Points against another quarterback, in this scheme.
struct PointsAgainst {
  std::string other;
  Reading per_drive;
  Reading per_game;
};

struct FitPicture {
  std::string player;
  std::string scheme;
  Reading fit;             ///< 100 exp(-D^2 / 2)
  double worse_share = 0;  ///< share of the setting's quarterbacks who fit worse, in [0, 1]
  std::string population;  ///< who these are: "college quarterbacks"
  std::vector<FamilyStrip> families;  ///< in any order; drawn by call share
  std::optional<PointsAgainst> against;
};

Panel fit_panel(const FitPicture& values, const Wording& wording);

}  // namespace callfit
