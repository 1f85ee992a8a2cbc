#include <callfit/ask/matchup.hpp>

namespace callfit {
namespace {

constexpr double left_when_turned = 1e-10;  // of drives: shows in no digit of call shares

// `population`: whose average quarterback is called in the scheme; `left` of drives are not counted
// to their end.
void weigh_calls(Matchup& matchup, const Setting& population, double left) {
  const DriveModel average = compile_drives(matchup, average_player(population));
  const DriveCounts counts = counts_over(average, matchup.starts, left);
  matchup.call_places = counts.places;
  matchup.most_to_go = counts.most_to_go;
  matchup.bound.call_share = call_shares(matchup.scheme(), matchup.call_places);
}

}  // namespace

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
  weigh_calls(matchup, ground.setting, counted_to);
  return matchup;
}

Matchup with_calls(const Matchup& from, const Setting& population, const Scheme& scheme) {
  Matchup matchup = from;
  matchup.plan = from.plan.value().with_calls(scheme);
  matchup.bound.scheme = scheme;
  weigh_calls(matchup, population, left_when_turned);
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
