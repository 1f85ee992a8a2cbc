// The level of play: the population a player is pulled toward, and the rules and habits of the
// game around him. docs/settings.md gives the source of every shipped number.
//
// Shifts are on the log-odds scale throughout. A rate p becomes logistic(logit p + shift). A gain
// distribution shifts by proportional odds (McCullagh 1980): P(G >= g) becomes
// logistic(logit P(G >= g) + shift) for every g above the smallest.
#pragma once

#include <callfit/chart/rate.hpp>
#include <callfit/population/population.hpp>
#include <callfit/scheme/scheme.hpp>

#include <array>
#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace callfit {

/// Probabilities of first, first + 1, ... yards; they sum to 1.
struct YardPmf {
  int first = 0;
  std::vector<double> p;

  int last() const { return first + static_cast<int>(p.size()) - 1; }
  double at(int yards) const {
    return yards < first || yards > last() ? 0.0 : p[static_cast<std::size_t>(yards - first)];
  }
};

double mean(const YardPmf& pmf);
double variance(const YardPmf& pmf);

/// The distribution moved by proportional odds: P(G >= g) becomes logistic(logit P(G >= g) + shift)
/// for every g above the smallest; positive shifts mean more yards.
YardPmf shifted(const YardPmf& pmf, double shift);

/// The population's gains: a shape per yard, cut into bins whose probabilities differ between
/// players as a Dirichlet with the given concentration.
struct GainPopulation {
  YardPmf shape;
  std::vector<int> bin_start;  ///< lowest yard of each bin, ascending; front() == shape.first
  double concentration = 0;    ///< sum of the Dirichlet's parameters, > 0

  std::size_t bin_of(int yards) const;     ///< yards outside the shape fall into the end bins
  std::vector<double> bin_shares() const;  ///< the population's probability of each bin
  std::vector<double> bin_means() const;   ///< mean yards within each bin; 0 in an empty one
  std::vector<double> alpha() const;       ///< parameters of the Dirichlet, a bin each
};

/// The population's rate: Beta with this mean and this standard deviation between players.
struct RatePopulation {
  double mean = 0;    ///< in (0, 1)
  double spread = 0;  ///< > 0, spread^2 < mean (1 - mean)

  /// alpha + beta of the Beta distribution: mean (1 - mean) / spread^2 - 1.
  double strength() const { return mean * (1 - mean) / (spread * spread) - 1; }
};

/// The parts a gain distribution can be of.
enum class GainPart { depth, yac, run, scramble, sack };
inline constexpr std::size_t gain_part_count = 5;

template <>
inline constexpr auto enum_words<GainPart> = std::to_array<std::string_view>({"depth", "yac", "run",
                                                                              "scramble", "sack"});

struct FamilyPopulation {
  std::string id;
  std::string label;
  FamilyKind kind = FamilyKind::pass;
  std::array<std::optional<RatePopulation>, rate_count> rates;  ///< those that apply to the kind
  std::optional<GainPopulation> depth;        ///< pass: of completions, from the line to the catch
  std::optional<GainPopulation> yac;          ///< pass: yards after the catch
  std::optional<GainPopulation> run;          ///< qb_run and handoff
  std::optional<YardPmf> interception_depth;  ///< pass: where it is caught, from the line
};

/// Log-odds shifts of rates and of gain parts.
struct Shifts {
  std::array<double, rate_count> rate{};
  std::array<double, gain_part_count> gain{};
};

/// To whom a shift applies; empty lists mean everyone.
struct FamilyFilter {
  std::vector<FamilyKind> kinds;
  std::vector<std::string> families;

  bool covers(const FamilyPopulation& family) const;
};

/// How a condition moves a rate, and how far single players stray from that: the cell's rate given
/// the family's rate theta is Beta with mean logistic(logit theta + shift) and strength `kappa`.
struct CellRate {
  double shift = 0;
  double kappa = 50;
};

/// [cell][rate]; nullopt where the setting says nothing of that rate in that cell.
using CellTable = std::array<std::array<std::optional<CellRate>, rate_count>, cell_count>;

struct CellPopulation {
  Cell cell = Cell::one_high;
  FamilyFilter who;
  std::array<std::optional<CellRate>, rate_count> rates;
  std::array<double, gain_part_count> gain_shift{};
};

/// One level of competition: weight in [0, 1] of its snaps (power prior, Ibrahim & Chen 2000), and
/// the log-odds of each rate there minus those at the setting's own level.
struct Level {
  std::string id;
  double weight = 1;
  std::array<double, rate_count> shift{};
};

struct ShellRule {
  SituationRule when;
  std::array<double, shell_count> share{};  ///< sums to 1
};

/// Every adjustment that matches applies; their shifts add up.
struct Adjustment {
  SituationRule when;
  FamilyFilter who;
  Shifts shifts;
};

/// How well the offence does against the defence it faces: drawn once for a drive.
struct QualityClass {
  double weight = 1;  ///< the weights sum to 1
  Shifts shifts;
};

enum class Side { offence, defence };

template <>
inline constexpr auto enum_words<Side> = std::to_array<std::string_view>({"offence", "defence"});

/// Every penalty whose `when` matches can happen on a snap; their probabilities add up.
struct Penalty {
  std::string id;
  SituationRule when;
  Side side = Side::offence;
  double probability = 0;  ///< accepted, per snap
  YardPmf yards;           ///< > 0 yards, against `side`; half the distance near a goal
  YardPmf move;  ///< instead of `yards` if not empty: all yards toward the goal, a play's gain too
  bool automatic_first_down = false;
  bool spot_foul = false;    ///< `yards` are not halved near the goal; the 1-yard line at best
  bool down_counts = false;  ///< the down is used up, else it is replayed

  /// The foul came on a play that counts: the down is used up, or the yards hold the play's gain.
  bool with_play() const { return down_counts || !move.p.empty(); }
};

/// A snap that never becomes a play: no gain, and the ball lost at the line with a share of them.
struct BadSnap {
  double probability = 0;  ///< per snap that the offence goes for
  double fumble_lost = 0;  ///< share of bad snaps
};

enum class FourthDownChoice { go, punt, field_goal };

struct FourthDownRule {
  SituationRule when;
  double go = 0, punt = 0, field_goal = 0;  ///< shares that sum to 1
};

struct PuntRule {
  Band yards_to_goal;
  double touchback = 0;
  double return_touchdown = 0;
  YardPmf net;  ///< yards the ball moves downfield, touchbacks apart
};

/// Of gains from there that end behind the own goal line, the share that is a safety; the rest lies
/// on the own 1.
struct OwnGoalRule {
  Band yards_to_goal;
  double safety = 1;
};

/// Share of drives that begin this way, and the offence's own yard line (1-99) there.
struct StartKind {
  std::string id;
  double share = 0;
  YardPmf own_yard;
};

struct GameRules {
  double touchdown = 6, try_mean = 0.94, field_goal = 3, safety = 2;  ///< points
  int end_zone_depth = 10;                                            ///< yards
  int kick_distance_beyond_line = 18;  ///< yards; field goal distance minus yards_to_goal
  int missed_kick_behind_line = 8;  ///< opponent takes over this far behind the line; 0: the line
  int missed_kick_minimum_own_yard = 20;
  int touchback_own_yard = 20;  ///< after a punt, interception or fumble
  double hash_gap = 40;         ///< feet between the hash marks, where the middle lane lies
  YardPmf safety_kick_start;    ///< own yard of the team that receives the free kick
};

struct FumbleLost {  ///< probability per outcome of that kind, at the population's fumble rate
  double sack = 0, completion = 0, scramble = 0, qb_run = 0, handoff = 0;
};

struct TurnoverReturns {
  YardPmf interception_return;        ///< yards toward the offence's goal from the catch
  double interception_touchdown = 0;  ///< share of interceptions
  YardPmf fumble_return;              ///< from the end of the gain, toward the offence's goal
  double fumble_touchdown = 0;
};

struct FieldGoalModel {
  double intercept = 0, slope = 0;  ///< logit p = intercept + slope * distance in yards
  int longest = 65;                 ///< yards; nothing longer is tried

  double make(int distance) const;
};

struct Kickoff {
  YardPmf own_yard;
  double return_touchdown = 0;
};

struct Setting {
  std::string id;
  std::string label;
  std::string level;  ///< the level its numbers describe
  GameRules rules;
  SuccessRule success;
  double drives_per_game = 11;
  /// Points per drive by which teams' seasons differ for what no rate of the quarterback says:
  /// line, receivers, opponents; standard deviation, >= 0.
  double surroundings_spread = 0;
  double end_of_half_share = 0;  ///< share of drives that the half cuts off; used where asked for
  std::vector<FamilyPopulation> families;
  std::optional<Population> population;  ///< how its quarterbacks differ, all rates together
  GainPopulation scramble_gain;
  GainPopulation sack_gain;  ///< yards are 0 or negative
  FumbleLost fumble_lost;
  TurnoverReturns turnovers;
  std::vector<CellPopulation> cells;
  std::vector<Level> levels;
  std::vector<ShellRule> shells;
  std::vector<Adjustment> adjustments;
  std::vector<QualityClass> quality;
  std::vector<Penalty> penalties;
  BadSnap bad_snap;
  /// Of gains that just reach the line to gain, the share that is spotted a yard short of it.
  double spotted_short = 0;
  /// Of gains that just reach the goal line, the share that is spotted on the 1.
  double spotted_at_goal = 0;
  std::vector<OwnGoalRule> own_goal;  ///< the first that matches counts
  std::vector<FourthDownRule> fourth_down;
  FieldGoalModel field_goal;
  std::vector<PuntRule> punts;
  Kickoff kickoff;
  std::vector<StartKind> starts;
  std::string average_scheme;  ///< file name, beside the shipped schemes

  /// By `own_goal`; 1 where nothing is said.
  double own_goal_safety(int yards_to_goal) const;
  const FamilyPopulation* find_family(std::string_view id) const;  ///< nullptr when unknown
  const Level* find_level(std::string_view id) const;              ///< nullptr when unknown
  /// What the setting says of the rates in the cells of a family. Shifts of several entries that
  /// cover it add up; the last entry's kappa counts.
  CellTable cell_table(const FamilyPopulation& family) const;
  /// Sum of the cell's shifts of a gain part in a family, on the log-odds scale.
  double cell_gain_shift(const FamilyPopulation& family, Cell cell, GainPart part) const;
};

/// How often each shell is met overall: the shares of the last shell rule, which is the one that
/// matches everything; even shares when the setting has no rule.
std::array<double, shell_count> shell_mix(const Setting& setting);

/// Share of drives that start at each yards_to_goal; index 0 unused, size 100, sums to 1.
std::vector<double> start_shares(const Setting& setting);

}  // namespace callfit
