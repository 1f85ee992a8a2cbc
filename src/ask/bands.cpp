#include <callfit/ask/bands.hpp>

namespace callfit {
namespace {

constexpr std::size_t spots = 100;

// Everything a band is made of, for one quarterback without uncertainty.
std::vector<double> row_of(const Matchup& matchup, const Player& player) {
  const DriveModel drives = compile_drives(matchup, player);
  const PointValues values = solve_points(drives);
  const auto share = result_shares(drives, matchup.starts);
  std::vector<double> row;
  row.reserve(2 * (spots - 1) + drive_result_count + 1);
  for (std::size_t spot = 1; spot < spots; ++spot) {
    row.push_back(values.points[spot]);
    row.push_back(values.net_points[spot]);
  }
  row.insert(row.end(), share.begin(), share.end());
  row.push_back(values.points_over(matchup.starts));
  return row;
}

UncertainValue column_of(const std::vector<double>& centre,
                         const std::vector<std::vector<double>>& draws, std::size_t column) {
  std::vector<double> sample(draws.size());
  for (std::size_t d = 0; d < draws.size(); ++d) sample[d] = draws[d][column];
  return {centre[column], interval90_of(std::move(sample))};
}

}  // namespace

DriveBands drive_bands(const Profile& profile, const Matchup& matchup, const DrawOptions& options,
                       const Progress& progress) {
  std::vector<std::vector<double>> draws(options.draws);
  for_each_unit(
      options.draws, options.threads,
      [&](std::size_t index) {
        draws[index] = row_of(matchup, draw_player(profile, matchup.setting, options.seed, index));
      },
      progress);
  const std::vector<double> centre = row_of(matchup, mean_player(profile, matchup.setting));

  DriveBands bands;
  bands.points_at.resize(spots);
  bands.net_points_at.resize(spots);
  std::size_t column = 0;
  for (std::size_t spot = 1; spot < spots; ++spot) {
    bands.points_at[spot] = column_of(centre, draws, column++);
    bands.net_points_at[spot] = column_of(centre, draws, column++);
  }
  for (UncertainValue& share : bands.result) share = column_of(centre, draws, column++);
  bands.points = column_of(centre, draws, column);
  return bands;
}

}  // namespace callfit
