#include <callfit/validate/season_points.hpp>

#include <callfit/base/finding.hpp>
#include <callfit/base/parallel.hpp>
#include <validate/forecast.hpp>
#include <validate/foretold.hpp>
#include <validate/odds.hpp>
#include <validate/rest_of_season.hpp>

#include <algorithm>
#include <cmath>
#include <set>

namespace callfit {
namespace {

constexpr std::size_t least_seasons = 10;
constexpr std::size_t seasons_per_part = 10;  // for a regression on parts

double spread_of(const Eigen::VectorXd& centred) {
  return std::sqrt(centred.squaredNorm() / static_cast<double>(centred.size()));
}

std::vector<std::string> men_of(const std::vector<PlayedSeason>& seasons) {
  std::vector<std::string> men;
  men.reserve(seasons.size());
  for (const PlayedSeason& season : seasons) men.push_back(season.man());
  return men;
}

std::size_t different(const std::vector<std::string>& names) {
  return std::set<std::string>(names.begin(), names.end()).size();
}

void weigh_parts(SameSeason& out, const std::vector<PlayedSeason>& seasons,
                 const Eigen::VectorXd& points) {
  Eigen::MatrixXd parts(points.size(), static_cast<Eigen::Index>(points_part_count));
  for (std::size_t p = 0; p < points_part_count; ++p)
    parts.col(static_cast<Eigen::Index>(p)) =
        column_of(seasons, [p](const PlayedSeason& season) { return season.parts[p]; });
  if (seasons.size() < seasons_per_part * points_part_count) return;
  const LeastSquares fit = least_squares(parts, points, men_of(seasons));
  out.correlation_of_parts = fit.correlation;
  for (std::size_t p = 0; p < points_part_count; ++p) {
    const auto at = static_cast<Eigen::Index>(p);
    out.weights.push_back(
        {static_cast<PointsPart>(p), spread_of(parts.col(at)), fit.weights[at], fit.errors[at]});
  }
}

double mean_sampling_variance(const std::vector<PlayedSeason>& seasons,
                              const PointsGround& ground) {
  const Eigen::VectorXd variance = column_of(seasons, [&](const PlayedSeason& season) {
    return ground.variance_of_drive() / season.season->drives;
  });
  return variance.mean();
}

SameSeason same_season(const std::vector<PlayedSeason>& seasons, const PointsGround& ground) {
  constexpr auto start = static_cast<std::size_t>(PointsPart::start);
  const Eigen::VectorXd points =
      column_of(seasons, [](const PlayedSeason& season) { return season.points; });
  const Eigen::VectorXd model =
      column_of(seasons, [](const PlayedSeason& season) { return season.model; });
  const Eigen::VectorXd first_order =
      column_of(seasons, [](const PlayedSeason& season) { return season.first_order; });
  const Eigen::VectorXd starts =
      column_of(seasons, [](const PlayedSeason& season) { return season.parts[start]; });
  const LeastSquares line = least_squares(model, points, men_of(seasons));
  SameSeason out;
  out.seasons = seasons.size();
  out.quarterbacks = different(men_of(seasons));
  out.real_spread = spread_of(points);
  out.sampling_spread = std::sqrt(mean_sampling_variance(seasons, ground));
  out.model_spread = spread_of(model);
  out.correlation = line.correlation;
  out.slope = line.weights[0];
  out.slope_error = line.errors[0];
  out.correlation_with_start = correlation_of(model + starts, points);
  Eigen::MatrixXd both(points.size(), 2);
  both << model, starts;
  const LeastSquares with_start = least_squares(both, points, men_of(seasons));
  out.slope_with_start = with_start.weights[0];
  out.slope_with_start_error = with_start.errors[0];
  out.gradient_correlation = correlation_of(first_order, model);
  weigh_parts(out, seasons, points);
  for (const PlayedSeason& season : seasons)
    out.each.push_back({season.man(), season.year(), season.points, season.model});
  return out;
}

/// One season that the one before foretold.
struct Prediction {
  TwoSeasons place;
  std::optional<bool> new_team;
  PointsForecast forecast;
  double miss_sd = 0;  ///< by which the points were expected to miss it
};

struct LeagueSeason {
  Games games;
  MemberCounts handoffs;
};

std::map<int, LeagueSeason> league_seasons(const std::vector<PlayedSeason>& seasons) {
  std::map<int, LeagueSeason> out;
  for (const PlayedSeason& season : seasons) {
    LeagueSeason& league = out[season.year()];
    league.games.insert(league.games.end(), season.games.begin(), season.games.end());
    league.handoffs.made += season.counts.handoff_success.made;
    league.handoffs.of += season.counts.handoff_success.of;
  }
  return out;
}

std::vector<Prediction> predictions(const std::vector<PlayedSeason>& seasons,
                                    const Forecaster& forecaster, const PointsGround& ground) {
  const std::map<int, LeagueSeason> leagues = league_seasons(seasons);
  std::map<int, Means> means;
  for (const auto& [year, league] : leagues) means[year] = means_of(league.games);
  std::vector<Prediction> out;
  for (const TwoSeasons& two : consecutive(seasons))
    out.push_back({two, seasons[two.after].season->new_team, {}, 0});
  for_each_unit(out.size(), 0, [&](std::size_t i) {
    Prediction& made = out[i];
    const PlayedSeason& before = seasons[made.place.before];
    made.forecast = forecaster.after(before, means.at(before.year()),
                                     leagues.at(before.year()).handoffs, made.new_team);
    const double drives = seasons[made.place.after].season->drives;
    made.miss_sd = std::sqrt(made.forecast.sd * made.forecast.sd +
                             std::pow(ground.setting().surroundings_spread, 2) +
                             ground.variance_of_drive() / drives);
  });
  return out;
}

Foretold foretold(const std::vector<Prediction>& predictions,
                  const std::vector<PlayedSeason>& seasons, std::optional<bool> new_team) {
  std::vector<ForetoldSeason> kept;
  for (const Prediction& made : predictions) {
    const PlayedSeason& after = seasons[made.place.after];
    if (!new_team || made.new_team == new_team)
      kept.push_back({after.man(), made.forecast.mean, after.points, made.miss_sd});
  }
  return foretold_of(kept);
}

std::vector<Rival> rivals_of(const std::vector<Prediction>& predictions,
                             const std::vector<PlayedSeason>& seasons) {
  std::vector<Rival> out;
  for (const Prediction& made : predictions) {
    const PlayedSeason& after = seasons[made.place.after];
    out.push_back({after.man(), after.year(), made.forecast.mean, made.miss_sd,
                   seasons[made.place.before].model, after.points});
  }
  return out;
}

/// Covariance of what the model leaves of two seasons with the same team.
void add_what_comes_back(SpreadReport& out, const std::vector<PlayedSeason>& seasons) {
  double sum = 0;
  for (const TwoSeasons& two : consecutive(seasons)) {
    const PlayedSeason& before = seasons[two.before];
    const PlayedSeason& after = seasons[two.after];
    if (after.season->new_team != false) continue;
    sum += (before.points - before.model) * (after.points - after.model);
    ++out.pairs;
  }
  if (sum > 0) out.comes_back = std::sqrt(sum / static_cast<double>(out.pairs));
}

SpreadReport spreads(const SameSeason& same, const std::vector<PlayedSeason>& seasons,
                     const Forecaster& forecaster, const PointsGround& ground) {
  SpreadReport out;
  out.real = std::sqrt(std::max(
      same.real_spread * same.real_spread - same.sampling_spread * same.sampling_spread, 0.0));
  out.population = forecaster.population_spread();
  out.handoffs = forecaster.handoff_spread();
  for (std::size_t c = 0; c < place_change_count; ++c)
    out.carried[c] = forecaster.carried_spread(static_cast<PlaceChange>(c));
  out.surroundings = ground.setting().surroundings_spread;
  add_what_comes_back(out, seasons);
  return out;
}

}  // namespace

PointsReport validate_points(const Setting& setting, const Scheme& average_scheme,
                             const std::vector<QuarterbackGame>& games,
                             const std::vector<QuarterbackSeason>& seasons,
                             const std::string& source) {
  if (!setting.population)
    throw InputError(Finding{{setting.id, 0, "/population"},
                             "is missing: nothing says how quarterbacks differ together",
                             "add one, see docs/formats.md"});
  const PointsGround ground(setting, average_scheme);
  const std::vector<PlayedSeason> played = played_seasons(by_season(games), seasons, ground);
  if (played.size() < least_seasons)
    throw InputError(Finding{{source, 0, ""},
                             "fewer than ten of its seasons are in the table of games too, with "
                             "200 dropbacks",
                             "give the seasons of the same quarterbacks"});
  const Forecaster forecaster(ground);
  const std::vector<Prediction> made = predictions(played, forecaster, ground);
  PointsReport report;
  report.same_season = same_season(played, ground);
  report.spread = spreads(report.same_season, played, forecaster, ground);
  report.first_eight = rest_after_eight(played, forecaster, ground);
  report.next_season = foretold(made, played, std::nullopt);
  report.same_team = foretold(made, played, false);
  report.new_team = foretold(made, played, true);
  report.odds = odds_between(rivals_of(made, played));
  return report;
}

}  // namespace callfit
