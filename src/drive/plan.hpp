// Everything about a scheme in a setting that does not depend on the player: which plays come up
// where, what can follow a drive, how penalties move the ball. Compiled once, used for every draw.
#pragma once

#include <callfit/drive/drive.hpp>
#include <drive/endings.hpp>
#include <drive/replays.hpp>
#include <drive/states.hpp>

#include <array>
#include <cstdint>
#include <span>
#include <vector>

namespace callfit::drive {

inline constexpr int any_shell = -1;
inline constexpr std::size_t none = static_cast<std::size_t>(-1);

/// One of the player's or the setting's gain distributions, shifted.
struct ShiftedGain {
  GainPart part = GainPart::run;
  std::size_t family = none;  ///< none for scrambles and sacks
  double shift = 0;
};

/// A distribution of gains that plays draw from: a shifted gain, or a depth plus the yards after
/// the catch.
struct Component {
  std::size_t gain = none;  ///< index into Plan::gains; of a catch: the depth
  std::size_t yac = none;   ///< index into Plan::gains; none unless a catch
  int top = last_spot - 1;  ///< largest gain that any context asks for

  bool is_catch() const { return yac != none; }
};

/// A family called against a shell, with every shift (log-odds) that applies there.
struct Play {
  std::size_t family = 0;  ///< index into Setting::families
  int shell = any_shell;   ///< any_shell: the setting knows no difference for this family
  std::array<double, rate_count> shift{};
  std::array<double, rate_count> odds{};  ///< exp(shift): factors of the rates' odds
  /// Components; those that the family's kind does not have are none.
  std::size_t completion = none, scramble = none, sack = none, run = none;
};

struct WeightedPlay {
  std::size_t play = 0;  ///< index into Plan::plays
  double weight = 0;
};

/// The plays that a quality class mixes, by context; each context's in the order of their indices.
using ContextMixes = std::vector<std::vector<WeightedPlay>>;

/// A scheme's family against a shell, as a play of a context; called or not.
struct Call {
  std::size_t family = 0;  ///< index into Scheme::families
  std::size_t shell = 0;
  std::size_t play = 0;    ///< index into Plan::plays
  bool too_long = false;   ///< out of reach there
  double made = 0;         ///< share of the calls against the shell that can be made there
  double shell_share = 1;  ///< how often the shell is met
  double per_share = 0;    ///< probability of the play in the context by the scheme's share; 0
                           ///< where it cannot be made
};

/// What of a plan's plays, components and gains is wanted: ascending indices.
struct Parts {
  std::vector<std::size_t> plays, components, gains;
};

/// Where the same plays are called with the same shifts: a scheme situation, the adjustments that
/// match, a shell rule, the families that cannot be thrown there.
struct Context {
  std::size_t situation = 0;
  std::size_t shell_rule = 0;
  std::vector<std::size_t> adjustments;
  std::vector<std::size_t> out_of_reach;  ///< setting's pass families, all throws too long
  int farthest = 0;                       ///< largest yards_to_goal where it occurs
};

/// A context at a spot.
struct Row {
  std::uint32_t context = 0;
  int yards_to_goal = 0;
};

/// Gains first_gain, first_gain + 1, ... (count of them) of one context: over the open field, or,
/// where the end zone's back line cuts throws short, at one spot.
struct Slice {
  std::uint32_t context = 0;
  int yards_to_goal = 0;  ///< 0: the open field
  int count = 0;
  std::size_t offset = 0;  ///< into the pools of a table
};

/// Slices of the open field first, in the order of the contexts, then those near the goal, the
/// nearest first.
struct Layout {
  std::vector<Slice> slices;
  std::vector<std::uint32_t> slice_of;  ///< by row
  std::size_t pool_size = 0;            ///< sum of the slices' counts

  const Slice& of_row(std::size_t row) const { return slices[slice_of[row]]; }
};

/// The ball moved by a penalty from one spot, seen from the offence's own yard line.
struct Move {
  int own_yard = 0;
  double probability = 0;
  double with_play = 0;  ///< of that: the foul came on a play that counts
};

struct PenaltyMoves {
  double total = 0;              ///< probability that a penalty is accepted
  double with_play = 0;          ///< of that: the foul came on a play that counts
  std::vector<Move> replay;      ///< the down is replayed, unless the move reaches the line
  std::vector<Move> next_down;   ///< the down is used up, unless the move reaches the line
  std::vector<Move> first_down;  ///< a first down wherever the ball is
};

/// Rewards of endings for a set of columns, laid out so that a spot's columns lie side by side.
struct Rewards {
  std::size_t columns = 0;
  std::vector<double> touchdown, safety, half, play, first_down;  ///< [column]
  std::vector<double> punt, field_goal, downs, fumble;            ///< [yards_to_goal][column]
  std::vector<double> interception;  ///< [family][yards_to_goal of the line][column]

  std::span<const double> at(const std::vector<double>& values, int yards_to_goal) const {
    return {values.data() + static_cast<std::size_t>(yards_to_goal) * columns, columns};
  }
};

struct Plan {
  Setting setting;
  Scheme scheme;
  std::vector<std::size_t> scheme_family;
  DriveOptions options;
  double half_hazard = 0;  ///< chance that the half ends before a snap, in [0, 1)

  std::vector<Context> contexts;
  std::vector<Row> rows;
  std::vector<std::uint16_t> row_of;          ///< by state_index
  std::vector<std::uint16_t> fourth_down_of;  ///< fourth-down rule by place_index
  int first_gain = 0;                         ///< of every slice

  std::vector<ShiftedGain> gains;
  std::vector<Component> components;
  std::vector<Play> plays;
  std::vector<std::vector<std::vector<Call>>> calls;  ///< [quality class][context]
  Parts all;                                          ///< called or not
  Layout every_call;                                  ///< with the slices of plays not called too

  // By the shares of calls and shells: see weigh_calls().
  std::vector<ContextMixes> mix;  ///< by quality class; weights above 0
  Parts called;
  std::vector<Parts> called_in;  ///< by quality class
  Layout layout;                 ///< of tables

  std::vector<std::uint16_t> penalty_set_of;                      ///< by state_index
  std::vector<std::array<PenaltyMoves, field_length>> penalties;  ///< [set][own yard line]
  std::vector<Replays> replays;
  std::array<std::array<std::uint16_t, line_count>, down_count> replays_of{};  ///< [down - 1][line]
  Endings endings;
  Column points, net;
  Rewards point_rewards;  ///< of {points, net}

  std::size_t classes() const { return calls.size(); }
  const PenaltyMoves& penalties_at(int down, int line, int own) const {
    return penalties[penalty_set_of[state_index(down, line, own)]][static_cast<std::size_t>(own)];
  }
  const Replays& replays_at(int down, int line) const {
    return replays[replays_of[static_cast<std::size_t>(down - 1)][static_cast<std::size_t>(line)]];
  }
};

/// As many yards to the goal and nearer, gains that just reach the goal line may be spotted on the
/// 1; farther off they are too rare to matter.
inline constexpr int goal_spotting_from = 20;

/// Of gains that just reach the goal line from here, the share that is spotted on the 1.
inline double spotted_at_goal(const Plan& plan, int yards_to_goal) {
  return yards_to_goal > goal_spotting_from ? 0 : plan.setting.spotted_at_goal;
}

/// Of gains that just reach this line to gain, the share that is spotted a yard short of it. Those
/// at the goal line are in the tables (Components::change_near_goal).
inline double spotted_short(const Plan& plan, int line) {
  return line == 0 ? 0 : plan.setting.spotted_short;
}

// Steps of make_plan, in order.
void find_contexts(Plan& plan);
void find_plays(Plan& plan);
/// All that depends on the shares of calls in Plan::scheme and of shells in Plan::setting.
void weigh_calls(Plan& plan);
/// Slices for the plays that any class has in a context, per context.
Layout lay_out(const Plan& plan, const std::vector<std::vector<std::size_t>>& plays);
/// Where an interception `depth` yards beyond the line is caught: yards to the goal, 0 in the end
/// zone.
int interception_spot(int yards_to_goal, int depth);
/// Moves of the penalties named by `which` (indices into `penalties`).
PenaltyMoves penalty_moves(const std::vector<Penalty>& penalties,
                           const std::vector<std::size_t>& which, int yards_to_goal);
void find_penalties(Plan& plan);
/// Of the plan's penalties, as often as its half_hazard lets them count.
void find_replays(Plan& plan);
Rewards make_rewards(const Plan& plan, std::span<const Column> columns);

}  // namespace callfit::drive
