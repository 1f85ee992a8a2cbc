#include <callfit/ask/comparison.hpp>

#include <algorithm>
#include <cmath>
#include <stdexcept>

namespace callfit {
namespace {

template <class Take>
UncertainValue summary(double value, const std::vector<DrivePoints>& draws, Take take) {
  std::vector<double> sample(draws.size());
  std::transform(draws.begin(), draws.end(), sample.begin(), take);
  return {value, interval90_of(std::move(sample))};
}

UncertainValue scaled(const UncertainValue& v, double factor) {
  return {v.value * factor, {v.interval90.low * factor, v.interval90.high * factor}};
}

}  // namespace

Worth worth_of(const Profile& profile, const Matchup& matchup, const DrawOptions& options,
               const Progress& progress) {
  Worth worth;
  worth.draws.resize(options.draws);
  for_each_unit(
      options.draws, options.threads,
      [&](std::size_t index) {
        worth.draws[index] =
            drive_points(matchup, draw_player(profile, matchup.setting, options.seed, index));
      },
      progress);
  const DrivePoints centre = drive_points(matchup, mean_player(profile, matchup.setting));
  worth.points = summary(centre.points, worth.draws, [](const DrivePoints& d) { return d.points; });
  worth.net_points =
      summary(centre.net_points, worth.draws, [](const DrivePoints& d) { return d.net_points; });
  return worth;
}

Difference difference_of(const Worth& first, const Worth& second, double drives_per_game) {
  std::vector<DrivePoints> gaps(std::min(first.draws.size(), second.draws.size()));
  for (std::size_t i = 0; i < gaps.size(); ++i)
    gaps[i] = {first.draws[i].points - second.draws[i].points,
               first.draws[i].net_points - second.draws[i].net_points};
  Difference difference;
  difference.points_per_drive = summary(first.points.value - second.points.value, gaps,
                                        [](const DrivePoints& d) { return d.points; });
  difference.net_per_drive = summary(first.net_points.value - second.net_points.value, gaps,
                                     [](const DrivePoints& d) { return d.net_points; });
  difference.points_per_game = scaled(difference.points_per_drive, drives_per_game);
  difference.net_per_game = scaled(difference.net_per_drive, drives_per_game);
  const auto better = std::count_if(gaps.begin(), gaps.end(),
                                    [](const DrivePoints& d) { return d.net_points > 0; });
  difference.chance_first_better = static_cast<double>(better) / static_cast<double>(gaps.size());
  return difference;
}

}  // namespace callfit
