// Holds what drives make of real quarterbacks against the points that their drives made: a season's
// own rates put into the model, and what the season before foretold.
#pragma once

#include <callfit/base/names.hpp>
#include <callfit/scheme/scheme.hpp>
#include <callfit/setting/setting.hpp>
#include <callfit/validate/quarterbacks.hpp>

#include <array>
#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace callfit {

/// The drives that a man led in a season.
struct QuarterbackSeason {
  std::string quarterback;  ///< as in QuarterbackGame
  int season = 0;
  double drives = 0, points = 0;
  /// Mean yards to goal where those of the first and third quarter began; nullopt: none did.
  std::optional<double> start;
  MemberCounts handoff_success;
  double handoff_yards = 0;
  /// Whether his team is another than in the season he last played before; nullopt: his first.
  std::optional<bool> new_team;
};

/// What a season's points hang on, each taken alone.
enum class PointsPart { completion, interception, sack, scramble, after_catch, handoff, start };
inline constexpr std::size_t points_part_count = 7;

template <>
inline constexpr auto enum_words<PointsPart> = std::to_array<std::string_view>(
    {"completion", "interception", "sack", "scramble", "after_catch", "handoff", "start"});

struct PartWeight {
  PointsPart part = PointsPart::completion;
  double spread = 0;  ///< standard deviation of what the model makes of it, points a drive
  double weight = 0;  ///< in a regression on all parts: 1 where the model is right
  double standard_error = 0;
};

/// Of one man's season, points per drive less the mean of that season's men.
struct SeasonBesideModel {
  std::string quarterback;
  int season = 0;
  double points = 0, model = 0;
};

/// Points per drive, each less its season's mean: the model's of a season's own rates beside those
/// of the drives. Standard errors take the seasons of one man as one cluster.
struct SameSeason {
  std::size_t seasons = 0, quarterbacks = 0;
  double real_spread = 0;      ///< standard deviation between seasons
  double sampling_spread = 0;  ///< of that, what so many drives of one offence differ by
  double model_spread = 0;
  double correlation = 0;
  double slope = 0, slope_error = 0;  ///< of the points on the model's
  double correlation_with_start = 0;  ///< what starts are worth added, nothing fitted
  /// Of the points on the model's where what starts are worth is given too.
  double slope_with_start = 0, slope_with_start_error = 0;
  double correlation_of_parts = 0;  ///< the regression's
  double gradient_correlation = 0;  ///< first-order points, whose parts are weighed, and exact
  std::vector<PartWeight> weights;  ///< none of too few seasons
  std::vector<SeasonBesideModel> each;
};

/// A season foretold by the one before: points per drive, each less its season's mean.
struct Foretold {
  std::size_t seasons = 0;
  double correlation = 0;
  double slope = 0, slope_error = 0;  ///< of the points on what was expected
  double expected_spread = 0;         ///< standard deviation of what was expected
  /// Root mean square of what the points missed by, over the standard deviation that they were
  /// expected to miss by.
  double miss_ratio = 0;
};

/// The rest of a season foretold by its first eight games, handoffs left out.
struct RestOfSeason {
  Foretold rates;   ///< what the model makes of the rest's own rates; no miss_ratio
  Foretold points;  ///< the season's points less what the model makes of the first games
};

/// Pairs of men of one season for which odds were given beforehand, from the ahead one's side.
struct OddsBand {
  double low = 0, high = 0;  ///< of the odds; the lower end is in, the upper one only if 1
  double pairs = 0;
  double odds = 0;            ///< their mean
  double came_true = 0;       ///< share in which he had more points per drive
  double standard_error = 0;  ///< of that less the odds; what pairs share a man is counted in
};

struct OddsReport {
  std::size_t pairs = 0, quarterbacks = 0;
  std::vector<OddsBand> tenths;    ///< from .5 on
  std::vector<OddsBand> verdicts;  ///< open, leaning, clear
  double brier = 0;
  /// Of a logistic regression on the gap between what the model made of both men's season before,
  /// fitted to the other seasons.
  double regression_brier = 0;
  double brier_difference_error = 0;
};

/// What quarterbacks and their surroundings differ by, points per drive; standard deviations.
struct SpreadReport {
  double real = 0;        ///< between seasons, sampling taken out
  double population = 0;  ///< between members of the setting's population
  double handoffs = 0;    ///< of that, their handoffs alone
  /// Of the population's, what is known of a man at another place when all of him was known here.
  std::array<double, place_change_count> carried{};
  double surroundings = 0;  ///< the setting's
  /// What the model leaves of a season and comes back in the next with the same team; 0 where
  /// nothing does.
  double comes_back = 0;
  std::size_t pairs = 0;  ///< of seasons behind that
};

struct PointsReport {
  SameSeason same_season;
  SpreadReport spread;
  RestOfSeason first_eight;
  Foretold next_season, same_team, new_team;
  OddsReport odds;
};

/// Seasons of 200 dropbacks count. Every quarterback plays the setting's average scheme; nothing is
/// fitted to the points. Throws InputError as bind_scheme() does, where the setting has no
/// population, and where fewer than ten seasons are in both tables; `source` names them there.
PointsReport validate_points(const Setting& setting, const Scheme& average_scheme,
                             const std::vector<QuarterbackGame>& games,
                             const std::vector<QuarterbackSeason>& seasons,
                             const std::string& source);

}  // namespace callfit
