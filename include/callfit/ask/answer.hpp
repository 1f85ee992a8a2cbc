// Answers as plain values: all that texts, JSON documents and pictures show, computed once. An
// answer carries its own labels, so that who shows it needs nothing else.
#pragma once

#include <callfit/ask/knob.hpp>
#include <callfit/ask/number.hpp>
#include <callfit/ask/package.hpp>
#include <callfit/ask/tailor_limits.hpp>
#include <callfit/ask/verdict.hpp>
#include <callfit/chart/rate.hpp>
#include <callfit/chart/snap.hpp>
#include <callfit/drive/drive.hpp>
#include <callfit/profile/around.hpp>

#include <array>
#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <variant>
#include <vector>

namespace callfit {

/// Snaps charted at one level.
struct LevelCount {
  std::string level;
  double snaps = 0;
};

/// Shares of the variance of net points and of the place's D^2, in [0, 1]; what an answer does not
/// tell is left out.
struct VarianceShares {
  std::optional<double> net_points, place;
};

/// How far means moved.
struct MeansMoved {
  std::optional<double> net_points_per_game, place;
};

/// Because something is known of the opponents on the tape.
struct ScheduleEffect {
  std::size_t opponents = 0;  ///< of whom something is known
  MeansMoved moved;
};

/// What an answer's intervals rest on, beside the counts. docs/model.md, "What an answer rests on".
struct Footing {
  std::optional<VarianceShares> moves;  ///< vanishes if all snaps were of the place asked about
  /// By what share standard deviations would be less were assumed spreads half as wide; below 0:
  /// more.
  VarianceShares assumed;
  std::optional<ScheduleEffect> schedule;
  std::optional<MeansMoved> coming;  ///< because opponents to come are told, not average ones
};

/// Whose tape, in which scheme, at which level of play.
struct About {
  std::string quarterback, scheme;            ///< names
  std::string level;                          ///< of the setting, in plain words: "college"
  double snaps = 0;                           ///< charted, of the quarterback
  std::vector<LevelCount> tape;               ///< those snaps by level
  std::optional<Footing> footing{};           ///< where the setting has a population
  double assumed_scale = 1;                   ///< what assumed spreads were multiplied by
  bool as_learned = false;                    ///< of what is turned by hand, as in Stand
  std::vector<SeasonDeparture> departures{};  ///< of charted games from their season
};

/// A demand held against the quarterback.
struct DemandAnswer {
  std::size_t family = 0;  ///< index into FitAnswer::families
  Measure measure = Measure::completion;
  std::optional<Cell> cell;
  std::string label;                 ///< "completion, two high"
  std::string asked_path, own_path;  ///< what turns `asked`, and what turns the estimate
  std::string part_path;             ///< the number that its part of D^2 is (SnapNumber)
  bool in_yards = false;
  bool more_is_better = true;
  double asked = 0;         ///< a share, or yards
  double spread = 1;        ///< between quarterbacks of the setting, in the unit of the estimate
  double made = 0, of = 0;  ///< charted; both 0 for means in yards
  double usual = 0;         ///< the setting's average quarterback
  Number estimate;
  Number short_by;    ///< in spreads, positive where he gives less than is asked
  double weight = 0;  ///< call share x weight of the demand, of their sum
  double part = 0;    ///< mean part of D^2; the parts add up to FitAnswer::mean_distance
  /// Net points a game that he is short of what is asked, first order; negative where he gives
  /// more. None where drives do not use the measure.
  std::optional<Number> costs;
  Verdict reaches;  ///< yes: he gives what is asked
};

struct FamilyAnswer {
  std::string id, label;
  std::string call_path;  ///< what turns `call_share`
  double call_share = 0;
  double snaps = 0;     ///< charted
  double part = 0;      ///< of D^2, the sum of its demands'
  double costs = 0;     ///< net points a game, the sum of its demands' centres
  bool unseen = false;  ///< nothing charted
};

struct UnusedAnswer {
  std::string family, label;  ///< label of the measure
  Measure measure = Measure::completion;
  bool in_yards = false;
  Number estimate;
  double usual = 0, surplus = 0, call_share = 0;  ///< surplus in spreads
};

/// How two ways to weigh demands order quarterbacks of the setting (Spearman's coefficients).
struct WeightAgreement {
  std::size_t quarterbacks = 0;
  double between_fits = 0;   ///< fit by the scheme's weights and by points
  double scheme_points = 0;  ///< fit by the scheme's weights and net points
  double points_points = 0;  ///< fit by points and net points
};

struct FitAnswer {
  About about;
  /// Of 100 quarterbacks of the setting, how many fit this scheme worse.
  Number place;
  Number distance;                         ///< D^2
  double mean_distance = 0;                ///< mean of D^2 over the draws: what the parts add up to
  std::vector<FamilyAnswer> families;      ///< in the scheme's order
  std::vector<DemandAnswer> demands;       ///< in the scheme's order
  std::vector<UnusedAnswer> unused;        ///< largest surplus first
  std::optional<WeightAgreement> weights;  ///< where weights by points were asked for
};

/// How points of a stand were found, for who wants to know how far to trust them.
struct Method {
  std::size_t exact_solves = 0;  ///< in all
  bool all_exact = false;        ///< the surrogate was poor: every draw was solved
  double surrogate_error = 0;    ///< net points per drive, root mean square over the checked draws
};

/// Plays per drive in a situation of the scheme, at the mean rates.
struct SituationPlays {
  std::string id, label;
  double plays = 0;
};

struct NamedNumber {
  std::string id, label;
  Number number;
};

/// Handoffs as drives have them: his charted success, and what is usual.
struct HandoffAnswer {
  Number success;
  double usual = 0;
};

struct DrivesAnswer {
  About about;
  std::optional<DriveState> from;  ///< else averaged over where drives start
  Number points, net_points;       ///< per drive
  Number points_per_game, net_points_per_game;
  double drives_per_game = 0;
  std::vector<NamedNumber> results;  ///< shares of drives; end_of_half only where it is played
  Number first_downs, plays;
  /// First and ten at each yards_to_goal, 1 to 99 (entry 0 is 1 yard); empty with `from`.
  std::vector<Number> points_at, net_points_at;
  std::vector<SituationPlays> situations;  ///< all of the scheme's
  std::optional<HandoffAnswer> handoffs;   ///< where the scheme calls them
  std::optional<SampledValues> sampled;    ///< at the posterior means, by the Monte Carlo engine
  Method method;
};

/// Point differences: first minus second.
struct DifferenceAnswer {
  std::string first, second;
  Number points_per_drive, net_points_per_drive;
  Number points_per_game, net_points_per_game;
  Verdict ahead;  ///< yes: the first has more net points
};

struct EntryAnswer {
  About about;
  Number place;               ///< of 100, as in FitAnswer
  Number points, net_points;  ///< per drive
  double odds_best = 0;       ///< of the most net points of all entries; the entries' sum to 1
  Method method;
};

struct CompareAnswer {
  std::vector<std::string> quarterbacks, schemes;
  std::vector<EntryAnswer> entries;  ///< [quarterback][scheme]
  /// The first quarterback against each other one in the first scheme; with one quarterback, the
  /// first scheme against each other one.
  std::vector<DifferenceAnswer> differences;
  double drives_per_game = 0;
};

/// Before, after and the change over the same draws.
struct Effect {
  Number before, after, change;
};

/// Planned calls and what they cost in contact, per game at the posterior means.
struct GameCounts {
  double package_calls = 0;
  double quarterback_runs = 0;
  double red_zone_touchdowns = 0;
};

/// What turning something does to drives.
struct DrivesMoved {
  Effect points_per_drive, net_points_per_drive;
  Effect points_per_game, net_points_per_game;
  Verdict better;  ///< yes: more net points a game
};

/// What turning something does.
struct TryResult {
  std::string name;
  std::vector<Moved> moved;
  Effect place;                       ///< of 100
  std::optional<DrivesMoved> drives;  ///< nothing where no drive can change: fit alone was turned
};

struct TryAnswer {
  About about;
  std::vector<TryResult> tries;
};

struct SweepAxis {
  std::string path, label;
  KnobUnit unit = KnobUnit::share;
  double now = 0;
  std::vector<double> at;
};

struct SweepCell {
  Number place;
  Number points_per_drive, net_points_per_drive;
  Number net_points_per_game_change;  ///< against the stand as it is
};

struct SweepAnswer {
  About about;
  std::vector<SweepAxis> axes;                ///< rows, then columns; one axis: rows alone
  std::vector<std::vector<SweepCell>> cells;  ///< [row][column], one column for one axis
};

/// One single change, by exact derivatives at a realistic step.
struct LeverAnswer {
  std::string path, label;
  KnobUnit unit = KnobUnit::share;
  bool is_call = false;
  bool of_handoffs = false;  ///< the runner's rather than the quarterback's
  double now = 0;
  double step =
      0;  ///< one spread between quarterbacks, or 10 points of call share; toward more net
  Number net_points_per_game;  ///< of the step, first order
  Number points_per_game;
  double place = 0;  ///< change of the middle place of 100 for the step
};

struct LeversAnswer {
  About about;
  std::vector<LeverAnswer> levers;  ///< most net points first
};

struct BreakEvenAnswer {
  About first, second;
  std::string path, label;
  KnobUnit unit = KnobUnit::share;
  bool both = false;
  double now = 0;
  double low = 0, high = 1;                ///< where it was looked for
  std::optional<double> value;             ///< the one nearest to `now`; none within low to high
  bool more_helps = true;                  ///< the first is ahead above `value`, else below
  double net_at_low = 0, net_at_high = 0;  ///< net points a game, first minus second, at the means
  double residual = 0;                     ///< net points per drive left at `value`
  std::optional<Verdict> ahead_of_it;      ///< yes: his own value lies where the first is ahead
  DifferenceAnswer now_difference;
};

struct PackageAnswer {
  Package package;
  std::string family;     ///< label
  double surprising = 0;  ///< share that still surprises
  About about;
  TryResult effect;
  GameCounts before, after;
};

/// The scheme bent to what is special about the quarterback: what all of his level would gain by
/// calling something more, defences are taken to have answered already.
struct TailorAnswer {
  About about;
  TailorLimits limits;
  /// Whether there is anything to go by: `own` leans his way at least. Else nothing is moved.
  bool advised = false;
  Number own_net_points_per_game;  ///< his gain less that of the setting's average quarterback
  Verdict own;                     ///< yes: he gains more than the average one
  TryResult effect;                ///< his gain in all; `moved`: what to call
};

/// What more tape of one family would do.
struct NextFamily {
  std::string id, label;
  double snaps = 0;  ///< charted
  double call_share = 0;
  /// Of the variance, what knowing the family exactly would take away, first order, in [0, 1];
  /// what two families share is in both.
  double share_of_points = 0, share_of_fit = 0;
  /// Half the width of the 90% interval with the further snaps: net points a game, places of 100.
  double points_after = 0, place_after = 0;
  /// Film until the further snaps come, at the rate at which the family came on the charted film;
  /// absent where no charted snap of it carries times.
  std::optional<double> film_minutes;
};

struct NextAnswer {
  About about;
  double more_snaps = 10;
  Number net_points_per_game, place;  ///< as they stand
  std::vector<NextFamily> families;   ///< most worth charting first
};

struct TrendStepAnswer {
  std::string game;  ///< empty: before the first one
  double snaps = 0, effective_snaps = 0;
  Number place, net_points_per_drive;
  std::vector<Number> followed;
};

struct FollowedAnswer {
  std::string family, label;  ///< labels
  bool in_yards = false;
  double usual = 0;
};

/// One thing that was said on a day: of a share, in odds that he reaches what is asked.
struct KeptVerdict {
  std::string family, family_label;
  Measure measure = Measure::completion;
  std::optional<Cell> cell;
  std::string label;
  double asked = 0;
  bool more_is_better = true;
  Number estimate;  ///< centre, low and high alone
  double odds = 0.5;
};

struct KeptGame {
  std::string game;
  double snaps = 0;
};

struct KeptAnswer {
  std::string date;  ///< ISO 8601, "2026-11-28"
  std::string quarterback, scheme;
  double snaps = 0;             ///< charted by then
  std::vector<KeptGame> games;  ///< that they were of
  std::vector<KeptVerdict> verdicts;
};

/// What a season's count made of it.
struct KeptOutcome {
  std::string date;
  KeptVerdict said;
  double made = 0, of = 0;  ///< in the season
  double odds = 0.5;        ///< of what was believed then, that a count of that many reaches it
  double came = 0;          ///< 1: it did, 0: not, 0.5: on the line
};

/// Verdicts of one lean: odds of the likelier side added up, and how often that side came.
struct KeptGroup {
  Lean lean = Lean::clear;
  std::size_t verdicts = 0;
  double said = 0, came = 0;
};

struct KeptScore {
  std::vector<KeptOutcome> outcomes;
  std::array<KeptGroup, enum_words<Lean>.size()> groups;
  double brier = 0;           ///< mean squared distance of odds and what came (Brier 1950)
  double expected_brier = 0;  ///< of somebody whose odds are right
  std::size_t left_out = 0;   ///< verdicts with too few trials
};

struct TrendAnswer {
  About about;
  std::vector<FollowedAnswer> followed;
  std::vector<TrendStepAnswer> steps;
  bool held = true;               ///< the last values lie within the first intervals
  std::optional<KeptScore> kept;  ///< where kept answers were given
};

/// What one family is worth to the first: net points a game that he would lose with the second's
/// rates and gains there. Means over draws; over all families they add up to the difference but
/// for `rest`.
struct ReasonAnswer {
  std::string family;  ///< label
  double part = 0;
  Number net_points_per_game;
  Verdict ahead;
};

struct DoubtAnswer {
  std::string label;
  Number estimate;
  double made = 0, of = 0;
  double swing = 0;  ///< net points a game between the ends of the interval, first order
};

/// What a change from the second to the first is made of. Means add up to the whole's whichever is
/// changed first: each is the average over both orders (Shapley 1953).
struct ChangePart {
  enum class Cause { man, scheme, surroundings };
  Cause cause = Cause::man;
  double mean_net_points_per_game = 0;
  Number net_points_per_game;
  /// Places of 100; the surroundings have none.
  std::optional<double> mean_place;
  std::optional<Number> place;
};

template <>
inline constexpr auto enum_words<ChangePart::Cause> =
    std::to_array<std::string_view>({"man", "scheme", "surroundings"});

struct ChangeAnswer {
  std::vector<ChangePart> parts;  ///< no scheme where both play in the same one
  double mean_net_points_per_game = 0;
  Number net_points_per_game;  ///< the whole, surroundings and all
  Verdict ahead;               ///< yes: the first has more net points, surroundings and all
};

struct BriefAnswer {
  About first, second;
  DifferenceAnswer difference;
  Number first_place, second_place;
  ChangeAnswer change;
  std::vector<ReasonAnswer>
      reasons;      ///< of all families, in the first's scheme, largest part first
  double rest = 0;  ///< net points a game that no single family explains
  /// Net points a game between both in the first's scheme, mean: what reasons and rest add up to.
  double mean_in_first_scheme = 0;
  std::optional<DoubtAnswer> doubt;    ///< of the first
  std::optional<LeverAnswer> wrinkle;  ///< the call that gains most among the clear ones
};

struct SaidDemand {
  std::string family;  ///< label
  DemandAnswer demand;
};

/// What can be said of him in three or four sentences.
struct SayAnswer {
  About about;
  Number place;
  std::vector<SaidDemand> demands;  ///< what is surest and costs most, at most two
  std::optional<DifferenceAnswer> difference;
};

/// What a number that rests on snaps is.
enum class SnapUnit { share, yards, points, net_points, place, distance, snaps };

template <>
inline constexpr auto enum_words<SnapUnit> =
    std::to_array<std::string_view>({"share", "yards", "points_per_game", "net_points_per_game",
                                     "place_of_100", "distance_squared", "snaps"});

/// A number that rests on snaps.
struct SnapNumber {
  std::string address;  ///< "net_points", "rate.boot.completion", "demand.boot.sack", "family.boot"
  std::string label;
  SnapUnit unit = SnapUnit::share;
};

/// One row of a chart behind a number.
struct SnapRow {
  std::string chart;
  std::size_t line = 0;  ///< in the chart's file
  Snap snap;
  std::string family;           ///< label
  bool counts = false;          ///< whether it is counted in the number
  std::string why_not;          ///< where it is not
  double weight = 0;            ///< with how much of a snap
  std::optional<bool> made;     ///< of a rate, where it counts
  std::optional<double> moved;  ///< by how much the number, in its unit
};

/// From the number with nothing charted to the number with all that is: means of the posterior.
/// Parts add up but for `rest`. docs/model.md, "What a snap moved".
struct SnapMoves {
  double without = 0, with = 0;
  double rows = 0;           ///< by the rows that are listed
  double other_snaps = 0;    ///< by snaps of which the number is no count
  double season_totals = 0;  ///< by what nobody charted of the seasons
  double rest = 0;           ///< of the quadrature
};

struct SnapsAnswer {
  About about;
  SnapNumber number;
  std::optional<Number> shown;     ///< as other answers tell it
  std::optional<SnapMoves> moves;  ///< where the setting says how quarterbacks differ together
  std::vector<SnapRow> rows;       ///< in the charts' order; none of a profile without charts
  bool has_charts = true;
  /// Places in `rows` of those that moved the number most, either way, most first.
  std::vector<std::size_t> most_up, most_down;
};

using Answer = std::variant<FitAnswer, DrivesAnswer, CompareAnswer, TryAnswer, SweepAnswer,
                            LeversAnswer, BreakEvenAnswer, PackageAnswer, TailorAnswer, NextAnswer,
                            TrendAnswer, BriefAnswer, SayAnswer, SnapsAnswer>;

}  // namespace callfit
