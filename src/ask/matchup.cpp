#include <callfit/ask/matchup.hpp>

namespace callfit {

Matchup make_matchup(const Setting& setting, const Scheme& scheme, const Scheme& average_scheme,
                     const DriveOptions& options) {
  // A first binding with even weights finds the families; the drives then say how often each
  // situation comes up, and the second binding carries the true call shares.
  const std::vector<double> even(scheme.situations.size(), 1.0);
  Matchup matchup{setting, bind_scheme(scheme, setting, even),
                  average_net_values(setting, average_scheme), options, start_shares(setting)};
  const ExactDrives drives = solve(compile_drives(matchup, average_player(setting)));
  matchup.bound = bind_scheme(scheme, setting, drives.situation_visits(matchup.starts));
  return matchup;
}

DriveModel compile_drives(const Matchup& matchup, const Player& player) {
  return compile_drives(player, matchup.scheme(), matchup.bound.setting_family, matchup.setting,
                        matchup.net, matchup.options);
}

DrivePoints drive_points(const Matchup& matchup, const Player& player) {
  const PointValues values = solve_points(compile_drives(matchup, player));
  return {values.points_over(matchup.starts), values.net_over(matchup.starts)};
}

}  // namespace callfit
