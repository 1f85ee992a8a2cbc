#include <validate/points_ground.hpp>

#include <algorithm>
#include <cmath>

namespace callfit {
namespace {

double variance_of_points(const Matchup& matchup, const Player& player) {
  const DriveFlow flow = flow_over(compile_drives(matchup, player), matchup.starts);
  const auto share = [&](DriveResult result) {
    return flow.share[static_cast<std::size_t>(result)];
  };
  const GameRules& rules = matchup.setting.rules;
  const double touchdown = rules.touchdown + rules.try_mean;
  const double mean =
      share(DriveResult::touchdown) * touchdown + share(DriveResult::field_goal) * rules.field_goal;
  return share(DriveResult::touchdown) * touchdown * touchdown +
         share(DriveResult::field_goal) * rules.field_goal * rules.field_goal - mean * mean;
}

}  // namespace

PointsGround::PointsGround(const Setting& setting, const Scheme& average_scheme)
    : matchup_(make_matchup(setting, average_scheme, average_scheme, {})),
      places_(joint_places(setting)),
      average_(average_player(setting)),
      values_(solve_points(compile_drives(matchup_, average_))),
      level_(values_.points_over(matchup_.starts)),
      variance_(variance_of_points(matchup_, average_)),
      terms_(ask::terms_of(differentiate(matchup_.plan.value(), average_, matchup_.starts))) {}

double PointsGround::points(const Player& player) const {
  return drive_points(matchup_, player).points - level_;
}

double PointsGround::first_order_points(const Player& player) const {
  double sum = 0;
  for (const ask::Term& term : terms_) sum += term.by_points * (term.in(player)-term.in(average_));
  return sum;
}

double PointsGround::points_from(double yards_to_goal) const {
  const double least = std::clamp(std::floor(yards_to_goal), 1.0, 98.0);
  const auto at = static_cast<std::size_t>(least);
  return std::lerp(values_.points[at], values_.points[at + 1], yards_to_goal - least);
}

}  // namespace callfit
