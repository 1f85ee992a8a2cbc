// A scheme played in a setting: everything about a question that does not depend on the player,
// computed once.
#pragma once

#include <callfit/drive/adjoint.hpp>
#include <callfit/drive/drive.hpp>
#include <callfit/fit/fit.hpp>
#include <callfit/profile/player.hpp>
#include <callfit/scheme/scheme.hpp>
#include <callfit/setting/setting.hpp>

#include <optional>
#include <vector>

namespace callfit {

struct Matchup {
  Setting setting;
  BoundScheme bound;  ///< the scheme, its families' places in the setting, call shares
  NetValues net;      ///< what the opponent's possession is worth
  DriveOptions options;
  std::optional<DrivePlan> plan;  ///< all of it compiled; set by make_matchup() and with_scheme()
  std::vector<double> starts;     ///< share of drives by starting yards_to_goal
  std::vector<CallPlace> call_places;  ///< of the setting's average quarterback
  int most_to_go = 99;                 ///< likewise, as DriveCounts says

  const Scheme& scheme() const { return bound.scheme; }
};

/// Call shares are what the setting's average quarterback is called in the scheme, snap by snap,
/// since how often a situation comes up depends on who plays. Throws InputError as bind_scheme()
/// does.
Matchup make_matchup(const Setting& setting, const Scheme& scheme, const Scheme& average_scheme,
                     const DriveOptions& options = {});

/// The ground's matchup with another scheme, another play of defences and other options. What the
/// opponent expects and where drives start stay the ground's, and so do the spreads of demands.
Matchup with_scheme(const Matchup& ground, const Setting& setting, const Scheme& scheme,
                    const DriveOptions& options);

/// A matchup with other call shares, and demands at other levels, for much less work. The scheme
/// must have its families and situations (DrivePlan::with_calls), else std::invalid_argument.
/// `population`: the ground's setting, whose average quarterback is called.
Matchup with_calls(const Matchup& from, const Setting& population, const Scheme& scheme);

DriveModel compile_drives(const Matchup& matchup, const Player& player);

/// Points and net points of a drive, averaged over the setting's starts.
struct DrivePoints {
  double points = 0;
  double net_points = 0;
};

DrivePoints drive_points(const Matchup& matchup, const Player& player);

}  // namespace callfit
