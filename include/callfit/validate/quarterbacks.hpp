// Holds a setting's population against real quarterbacks: what their early games say of the later
// ones, and one season of the next.
#pragma once

#include <callfit/base/names.hpp>
#include <callfit/population/population.hpp>
#include <callfit/stats/beta_binomial.hpp>

#include <array>
#include <cstddef>
#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

namespace callfit {

/// What is counted of a quarterback in a game.
enum class GameRate {
  completion_behind_line,   ///< of throws with a recorded depth below 0
  completion_quick,         ///< 0 to 9
  completion_intermediate,  ///< 10 to 19
  completion_deep,          ///< 20 and more
  interception,             ///< per throw
  sack,                     ///< per dropback
  scramble,                 ///< per dropback
  yac10_short,              ///< 10 and more yards after a catch behind the line or within 9 yards
  yac10_intermediate,       ///< the same after a catch at 10 to 19
  sack_fumble,              ///< per sack
  scramble_10plus,          ///< 10 and more yards per scramble
};
inline constexpr std::size_t game_rate_count = 11;

template <>
inline constexpr auto enum_words<GameRate> = std::to_array<std::string_view>(
    {"completion_behind_line", "completion_quick", "completion_intermediate", "completion_deep",
     "interception", "sack", "scramble", "yac10_short", "yac10_intermediate", "sack_fumble",
     "scramble_10plus"});

/// Throws behind the line, of up to 9 yards, of 10 to 19, of 20 and more.
inline constexpr std::size_t throw_depth_count = 4;

struct YardsGained {
  double yards = 0;
  double times = 0;  ///< gains that they add up from
};

struct QuarterbackGame {
  std::string quarterback;  ///< equal for one man in all seasons
  int season = 0;
  int order = 0;  ///< of his games in the season, ascending
  double dropbacks = 0;
  std::array<MemberCounts, game_rate_count> counts{};
  std::array<YardsGained, throw_depth_count> after_catch{};
  YardsGained scrambles{};
};

/// Log-likelihood that predictions gain, in 1000 trials, over other ones; standard errors take the
/// trials of one man as one cluster.
struct ScoreGain {
  double per_1000 = 0;
  double standard_error = 0;
};

/// Predictions of one rate, or of all together: mean binomial log-likelihood a trial, coefficients
/// left out, of the posterior mean against the league's mean, the raw rate ((k + 1/2) / (n + 1))
/// and the mean of a Beta with the population's spread that learns from this rate alone.
struct PredictionScore {
  double trials = 0;  ///< that were predicted
  ScoreGain league, raw, independent;
};

/// How many randomised counts fell into central 90% intervals of their predictive distribution.
struct Coverage {
  double inside = 0;
  double of = 0;

  double share() const { return of > 0 ? inside / of : 0.0; }
};

struct RatePredictions {
  GameRate rate = GameRate::sack;
  PredictionScore score;
  Coverage coverage90;
};

struct SnapGroup {
  double least_dropbacks = 0, most_dropbacks = 0;  ///< behind the prediction
  std::size_t seasons = 0;
  Coverage coverage90;
};

struct Predictions {
  std::size_t seasons = 0;  ///< seasons of one man that were predicted
  std::size_t quarterbacks = 0;
  PredictionScore score;
  Coverage coverage90;
  std::vector<RatePredictions> rates;  ///< those that the population has a trait for
  std::vector<SnapGroup> groups;       ///< by dropbacks behind the prediction
};

struct QuarterbackReport {
  std::string setting;
  std::string source;
  std::size_t games = 0, seasons = 0, quarterbacks = 0;
  Predictions first_four, first_eight;  ///< of a season, predicting its other games
  Predictions next_season;              ///< predicted by the one before; none with one season
};

/// A season is split where the first games have 50 dropbacks and the others 100; a season predicts
/// the next where both have 100. The league's means are those of the games that predict. Nothing is
/// fitted to the games. Throws InputError where the population has no trait for any rate, and where
/// no season is long enough; `source` names the games there.
QuarterbackReport validate_quarterbacks(const std::string& setting, const Population& population,
                                        const std::vector<QuarterbackGame>& games,
                                        const std::string& source, std::uint64_t seed);

}  // namespace callfit
