// Answers as plain values: all that texts, JSON documents and pictures show, computed once. An
// answer carries its own labels, so that who shows it needs nothing else.
#pragma once

#include <callfit/ask/knob.hpp>
#include <callfit/ask/number.hpp>
#include <callfit/ask/package.hpp>
#include <callfit/ask/tailor_limits.hpp>
#include <callfit/ask/verdict.hpp>
#include <callfit/chart/rate.hpp>
#include <callfit/drive/drive.hpp>

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

/// Whose tape, in which scheme, at which level of play.
struct About {
  std::string quarterback, scheme;  ///< names
  std::string level;                ///< of the setting, in plain words: "college"
  double snaps = 0;                 ///< charted, of the quarterback
  std::vector<LevelCount> tape;     ///< those snaps by level
};

/// A demand held against the quarterback.
struct DemandAnswer {
  std::size_t family = 0;  ///< index into FitAnswer::families
  Measure measure = Measure::completion;
  std::optional<Cell> cell;
  std::string label;  ///< "completion, two high"
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
  Verdict reaches;    ///< yes: he gives what is asked
};

struct FamilyAnswer {
  std::string id, label;
  double call_share = 0;
  double snaps = 0;     ///< charted
  double part = 0;      ///< of D^2, the sum of its demands'
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

struct NamedNumber {
  std::string id, label;
  Number number;
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
  std::vector<NamedNumber> situations;   ///< plays per drive in each situation of the scheme
  std::optional<SampledValues> sampled;  ///< at the posterior means, by the Monte Carlo engine
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

/// What turning something does.
struct TryResult {
  std::string name;
  std::vector<Moved> moved;
  Effect place;  ///< of 100
  Effect points_per_drive, net_points_per_drive;
  Effect points_per_game, net_points_per_game;
  Verdict better;            ///< yes: more net points a game
  bool drives_moved = true;  ///< else no drive can change: fit alone was turned
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

struct TailorAnswer {
  About about;
  TailorLimits limits;
  TryResult effect;  ///< `moved`: what to call
  /// Net points per drive at the posterior means: as called, bent, and if every snap had its own
  /// best mix within the limits.
  double net_before = 0, net_after = 0, net_bound = 0;
  int evaluations = 0;
};

/// What more tape of one family would do.
struct NextFamily {
  std::string id, label;
  double snaps = 0;  ///< charted
  double call_share = 0;
  double share_of_points = 0, share_of_fit = 0;  ///< of the variance, first order, in [0, 1]
  /// Half the width of the 90% interval with the further snaps: net points a game, places of 100.
  double points_after = 0, place_after = 0;
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

struct TrendAnswer {
  About about;
  std::vector<FollowedAnswer> followed;
  std::vector<TrendStepAnswer> steps;
  bool held = true;  ///< the last values lie within the first intervals
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

struct BriefAnswer {
  About first, second;
  DifferenceAnswer difference;
  Number first_place, second_place;
  std::vector<ReasonAnswer> reasons;   ///< of all families, largest part first
  double rest = 0;                     ///< net points a game that no single family explains
  std::optional<DoubtAnswer> doubt;    ///< of the first
  std::optional<LeverAnswer> wrinkle;  ///< the call that gains most among the clear ones
};

using Answer = std::variant<FitAnswer, DrivesAnswer, CompareAnswer, TryAnswer, SweepAnswer,
                            LeversAnswer, BreakEvenAnswer, PackageAnswer, TailorAnswer, NextAnswer,
                            TrendAnswer, BriefAnswer>;

}  // namespace callfit
