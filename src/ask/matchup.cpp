#include <callfit/ask/matchup.hpp>

namespace callfit {

Matchup make_matchup(const Setting& setting, const Scheme& scheme, const Scheme& average_scheme,
                     const DriveOptions& options) {
  Matchup ground;
  ground.setting = setting;
  ground.net = average_net_values(setting, average_scheme, options.end_of_half);
  ground.starts = start_shares(setting);
  return with_scheme(ground, setting, scheme, options);
}

Matchup with_scheme(const Matchup& ground, const Setting& setting, const Scheme& scheme,
                    const DriveOptions& options) {
  Matchup matchup{
      setting, bind_scheme(scheme, ground.setting), ground.net, options, {}, ground.starts, {}};
  matchup.plan.emplace(scheme, matchup.bound.setting_family, setting, ground.net, options);
  matchup.call_places =
      counts_over(compile_drives(matchup, average_player(ground.setting)), matchup.starts).places;
  matchup.bound.call_share = call_shares(scheme, matchup.call_places);
  return matchup;
}

DriveModel compile_drives(const Matchup& matchup, const Player& player) {
  return matchup.plan.value().compile(player);
}

DrivePoints drive_points(const Matchup& matchup, const Player& player) {
  const PointValues values = solve_points(compile_drives(matchup, player));
  return {values.points_over(matchup.starts), values.net_over(matchup.starts)};
}

}  // namespace callfit
