#include <validate/rest_of_season.hpp>

#include <callfit/base/parallel.hpp>
#include <validate/foretold.hpp>

#include <cmath>
#include <map>

namespace callfit {
namespace {

constexpr std::ptrdiff_t first_games = 8;
constexpr double least_dropbacks_of_rest = 100;

struct SplitSeason {
  const PlayedSeason* season = nullptr;
  Games first, rest;
  SeasonCounts first_counts, rest_counts;
  PointsForecast forecast;
  double first_points = 0, rest_points = 0;  ///< the model's, of the games' own rates
};

std::vector<SplitSeason> split(const std::vector<PlayedSeason>& seasons) {
  std::vector<SplitSeason> out;
  for (const PlayedSeason& season : seasons) {
    if (std::ssize(season.games) <= first_games) continue;
    const auto middle = season.games.begin() + first_games;
    SplitSeason one{
        &season, {season.games.begin(), middle}, {middle, season.games.end()}, {}, {}, {}, 0, 0};
    if (dropbacks_of(one.rest) < least_dropbacks_of_rest) continue;
    one.first_counts = counts_of(one.first, *season.season);
    one.rest_counts = counts_of(one.rest, {});
    out.push_back(std::move(one));
  }
  return out;
}

/// All men of a year together.
struct SplitYear {
  Games first;
  SeasonCounts first_counts, rest_counts;
  double men = 0, first_points = 0, rest_points = 0;
};

std::map<int, SplitYear> years_of(const std::vector<SplitSeason>& splits) {
  std::map<int, SplitYear> years;
  for (const SplitSeason& one : splits) {
    SplitYear& year = years[one.season->year()];
    year.first.insert(year.first.end(), one.first.begin(), one.first.end());
    year.first_counts += one.first_counts;
    year.rest_counts += one.rest_counts;
    year.men += 1;
  }
  return years;
}

Parts all_but_handoffs() {
  Parts parts = all_parts();
  parts[static_cast<std::size_t>(PointsPart::handoff)] = false;
  return parts;
}

// Nobody's drives and handoffs are told apart by game: those of the season stand for both parts,
// or what goes with a good offence would be left to the rest alone.
ForetoldSeason points_of_rest(const SplitSeason& one, const SplitYear& year,
                              const PointsGround& ground) {
  const PlayedSeason& season = *one.season;
  const double rest_share = dropbacks_of(one.rest) / dropbacks_of(season.games);
  const double first_points = one.first_points - year.first_points / year.men;
  const double came = (season.points - (1 - rest_share) * first_points) / rest_share;
  const double around = std::pow(ground.setting().surroundings_spread, 2) +
                        ground.variance_of_drive() / season.season->drives;
  const double miss =
      std::sqrt(one.forecast.sd * one.forecast.sd + around / std::pow(rest_share, 2));
  return {season.man(), one.forecast.mean, came, miss};
}

}  // namespace

RestOfSeason rest_after_eight(const std::vector<PlayedSeason>& seasons,
                              const Forecaster& forecaster, const PointsGround& ground) {
  std::vector<SplitSeason> splits = split(seasons);
  std::map<int, SplitYear> years = years_of(splits);
  std::map<int, Means> means;
  for (const auto& [number, year] : years) means[number] = means_of(year.first);
  for_each_unit(splits.size(), 0, [&](std::size_t i) {
    SplitSeason& one = splits[i];
    const SplitYear& year = years.at(one.season->year());
    const auto points = [&](const SeasonCounts& his, const SeasonCounts& league,
                            const Parts& parts) {
      return ground.points(season_player(ground, his, league, parts));
    };
    one.forecast = forecaster.rest_of_season(one.first, means.at(one.season->year()));
    one.first_points = points(one.first_counts, year.first_counts, all_parts());
    one.rest_points = points(one.rest_counts, year.rest_counts, all_but_handoffs());
  });
  for (const SplitSeason& one : splits) {
    SplitYear& year = years.at(one.season->year());
    year.first_points += one.first_points;
    year.rest_points += one.rest_points;
  }
  std::vector<ForetoldSeason> rates, points;
  for (const SplitSeason& one : splits) {
    const SplitYear& year = years.at(one.season->year());
    rates.push_back(
        {one.season->man(), one.forecast.mean, one.rest_points - year.rest_points / year.men, 0});
    points.push_back(points_of_rest(one, year, ground));
  }
  return {foretold_of(rates), foretold_of(points)};
}

}  // namespace callfit
