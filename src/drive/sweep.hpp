// The exact engine's inner part: values of every state, of a few quality classes side by side, by
// sweeps over the lines to gain from the goal line outward.
//
// For one line, and downs 4 to 1, a play leads to the next down of the same series (already
// known), to a new series whose line lies nearer the goal (already known), or ends the drive. Only
// penalties lead back: to the same down of the same series, and, when a first down by penalty is
// called far behind the line, to a series whose line comes later. A few sweeps settle those too.
#pragma once

#include <base/vector_loops.hpp>
#include <drive/lanes.hpp>
#include <drive/table.hpp>

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <span>
#include <type_traits>
#include <vector>

namespace callfit::drive {

/// Shares of what is done on fourth down.
struct FourthDownShares {
  double go = 0, punt = 0, field_goal = 0;
};

/// What the chooser does at each place (place_index) on fourth down.
using FourthDownPlan = std::vector<FourthDownShares>;

FourthDownPlan table_policy(const Plan& plan);

inline constexpr std::size_t net_index = 1;  ///< of the columns {points, net}

/// Values of K columns at first and ten, by yards_to_goal.
template <std::size_t K>
using FirstDowns = std::vector<std::array<double, K>>;

inline constexpr double full_tolerance = 1e-13;

/// The values of a line and down lie together by own yard: what a play can lead to within its
/// series is one stretch of memory. K columns, each value in all `Lanes`; lanes beyond the last
/// class repeat it. WideLanes can be solved only where wide_vectors_run().
template <std::size_t K, class Lanes>
class Sweep {
 public:
  /// Classes first_class, first_class + 1, ... of the table, lane_count at most. `policies`: per
  /// class of the table.
  Sweep(const Table& table, std::size_t first_class, const Rewards& rewards,
        std::span<const FourthDownPlan> policies)
      : plan_(*table.plan),
        rewards_(rewards),
        value_(state_count),
        first_(field_length),
        rows_(plan_.rows.size()),
        base_(plan_.rows.size()),
        short_(states_per_down),
        choice_(states_per_down),
        automatic_(plan_.penalties.size() * field_length),
        settled_(field_length) {
    std::array<const ClassTable*, lane_count> classes;
    for (std::size_t lane = 0; lane < lane_count; ++lane) {
      const std::size_t quality = std::min(first_class + lane, table.classes.size() - 1);
      classes[lane] = &table.classes[quality];
      take_policy(policies[quality], lane);
    }
    take_classes(classes);
    set_fourth_down_short();
  }

  /// States with more yards to go, at least 10, are taken to lie in line with the nearer ones.
  void look_back(int most_to_go) { most_to_go_ = most_to_go; }

  /// Lets the policy be replaced, place by place, by the choice that maximises the net column.
  void maximise_net() { maximise_ = true; }

  /// First downs that the sweeps start from: those of each class of the table, for all columns.
  void start_from(const std::vector<FirstDowns<K>>& known, std::size_t first_class) {
    for (int own = 1; own <= last_spot; ++own) {
      Values& first = first_at(own);
      for (std::size_t lane = 0; lane < lane_count; ++lane) {
        const auto& values = known[std::min(first_class + lane, known.size() - 1)];
        for (std::size_t k = 0; k < K; ++k)
          first.column[k].set(lane, values[static_cast<std::size_t>(field_length - own)][k]);
      }
      first.add_product(1, rewards_.first_down.data());
    }
    for (int spot = 1; spot <= last_spot; ++spot) renew_automatic(spot);
    started_ = true;
  }

  /// Sweeps until first downs, which all other values follow from, are expected to be right to
  /// `tolerance`: errors shrink from sweep to sweep by about the factor by which the changes do,
  /// which is followed with caution.
  void solve(double tolerance) {
    tolerance_ = tolerance;
    if constexpr (std::is_same_v<Lanes, WideLanes>)
      sweep_wide();
    else
      sweep_until_settled();
  }

  double value(std::size_t state, std::size_t column, std::size_t lane) const {
    return value_[state].column[column][lane];
  }
  FourthDownPlan policy(std::size_t lane) const {
    FourthDownPlan out;
    out.reserve(choice_.size());
    for (const Choice& at : choice_)
      out.push_back({at.go[lane], at.punt[lane], at.field_goal[lane]});
    return out;
  }
  int sweeps() const { return sweeps_; }

 private:
  using Values = LaneCell<K, Lanes>;

  static constexpr int most_turns = 60;
  static constexpr double caution = 10;
  // First downs by penalty are brought up to date for every spot this far behind the line; those
  // farther back use the sweep before.
  static constexpr int refreshed_to = 30;

  struct RowState {
    Values beyond;         // sum over gains of `reached` yards and more
    Lanes kept_out;        // plays that end behind the own goal line and are no safety
    std::size_t pool = 0;  // of a gain of 0
    int spot = 0;
    int smallest = 0;  // gain that stays on the field
    int reached = 0;
  };
  struct Choice {
    Lanes go, punt, field_goal;
  };

  Values* value_at(int down, int line, int own) {
    return value_.data() + state_index(down, line, own);
  }
  Values& first_at(int own) { return first_[static_cast<std::size_t>(own)]; }
  const Lanes* keep(const RowState& row, int gain) const {
    return keep_.data() + (row.pool + static_cast<std::size_t>(gain));
  }
  const double* at_spot(const std::vector<double>& columns, int spot) const {
    return columns.data() + static_cast<std::size_t>(spot) * K;
  }

  void take_classes(const std::array<const ClassTable*, lane_count>& classes) {
    std::array<const double*, lane_count> keep;
    for (std::size_t lane = 0; lane < lane_count; ++lane) keep[lane] = classes[lane]->keep.data();
    keep_ = side_by_side<Lanes>(keep, plan_.layout.pool_size);
    for (std::size_t r = 0; r < rows_.size(); ++r) {
      std::array<double, K> base{};
      for (std::size_t lane = 0; lane < lane_count; ++lane) {
        if (lane == 0 || classes[lane] != classes[lane - 1]) base = base_of(r, *classes[lane]);
        for (std::size_t k = 0; k < K; ++k) base_[r].column[k].set(lane, base[k]);
        rows_[r].kept_out.set(lane, kept_out_of_own_goal(plan_, *classes[lane], r));
      }
    }
  }

  void take_policy(const FourthDownPlan& policy, std::size_t lane) {
    for (std::size_t place = 0; place < choice_.size(); ++place) {
      choice_[place].go.set(lane, policy[place].go);
      choice_[place].punt.set(lane, policy[place].punt);
      choice_[place].field_goal.set(lane, policy[place].field_goal);
    }
  }

  // What the play itself is worth, whatever the down: scores, turnovers, safeties.
  std::array<double, K> base_of(std::size_t r, const ClassTable& table) {
    const Row& row = plan_.rows[r];
    const int spot = row.yards_to_goal;
    RowState& state = rows_[r];
    state.pool = plan_.layout.of_row(r).offset - static_cast<std::size_t>(plan_.first_gain);
    state.spot = spot;
    state.smallest = std::max(plan_.first_gain, spot - last_spot);
    std::array<double, K> base{};
    const auto add = [&base](double by, const double* columns) {
      for (std::size_t k = 0; k < K; ++k) base[k] += by * columns[k];
    };
    add(1, rewards_.play.data());
    add(table.touchdown[r], rewards_.touchdown.data());
    const std::size_t families = plan_.setting.families.size();
    for (std::size_t f = 0; f < families; ++f)
      add(table.interception[row.context * families + f],
          at_spot(rewards_.interception, static_cast<int>(f) * field_length + spot));
    add_fumbles(base, table.fumble.data() + state.pool, spot);
    add(safeties(plan_, table, r), rewards_.safety.data());
    return base;
  }

  // `fumble` is indexed by the gain. As many columns at a time as registers hold.
  void add_fumbles(std::array<double, K>& base, const double* fumble, int spot) const {
    constexpr std::size_t held = K % 2 == 0 ? 2 : 1;
    for (std::size_t k = 0; k < K; k += held) {
      std::array<double, held> sum;
      std::copy_n(base.begin() + k, held, sum.begin());
      const auto add = [&sum](double share, const double* rewards) {
        for (std::size_t j = 0; j < held; ++j) sum[j] += share * rewards[j];
      };
      int g = plan_.first_gain;
      for (; g < spot - last_spot; ++g) add(fumble[g], at_spot(rewards_.fumble, last_spot) + k);
      for (; g < spot; ++g) add(fumble[g], at_spot(rewards_.fumble, spot - g) + k);
      std::copy_n(sum.begin(), held, base.begin() + k);
    }
  }

  // Plays that just reach the line and are spotted short of it.
  Lanes pulled_back(const RowState& row, int line, double share) const {
    Lanes plays = *keep(row, row.spot - line);
    plays.scale(share);
    return plays;
  }

  // On fourth down every gain short of the line is a turnover on downs.
  void set_fourth_down_short() {
    std::vector<Values> sum(rows_.size());
    std::vector<int> next(rows_.size(), std::numeric_limits<int>::min());
    for (int own = 1; own <= last_spot; ++own)
      for (int line = last_spot - own; line >= 0; --line) {
        const std::size_t r = plan_.row_of[state_index(down_count, line, own)];
        const RowState& row = rows_[r];
        int& g = next[r];
        for (g = std::max(g, row.smallest); g < row.spot - line; ++g)
          sum[r].add_product(*keep(row, g), at_spot(rewards_.downs, row.spot - g));
        Values& all = short_[place_index(line, own)] = sum[r];
        all.add_product(row.kept_out, at_spot(rewards_.downs, last_spot));
        if (const double share = spotted_short(plan_, line); share > 0)
          all.add_product(pulled_back(row, line, share), at_spot(rewards_.downs, line + 1));
      }
  }

  CALLFIT_WIDE_THROUGHOUT void sweep_wide() { sweep_until_settled(); }

  void sweep_until_settled() {
    // The first change from nothing says nothing of how changes shrink.
    const int fewest = started_ ? 2 : 3;
    double change = std::numeric_limits<double>::infinity();
    for (double before = change;
         sweeps_ < fewest || caution * change * std::min(1.0, change / before) > tolerance_;
         ++sweeps_) {
      before = change;
      change = sweep();
    }
  }

  double sweep() {
    for (RowState& row : rows_) {
      row.beyond.clear();
      row.reached = row.spot;
    }
    double change = 0;
    for (int line = 0; line < line_count; ++line) change = std::max(change, settle(line));
    return change;
  }

  // Series to the goal line are their own first downs by penalty, so that line takes several turns.
  double settle(int line) {
    const double change = solve_line(line);
    for (int turn = 1; line == 0 && turn < most_turns; ++turn)
      if (solve_line(line) <= tolerance_) break;
    return change;
  }

  double solve_line(int line) {
    for (int spot = line + 1; spot <= std::min(line + refreshed_to, last_spot); ++spot)
      renew_automatic(spot);
    for (int down = down_count; down >= 1; --down) {
      const int last = spots_short_of(line);
      const int first = std::max(1, last - most_to_go_ + 1);
      for (int own = first; own <= last; ++own) {
        play(down, line, own);
        add_settled_penalties(down, line, own);
      }
      extend_back(first);
      replay(down, line);
    }
    return publish_first_downs(line);
  }

  // First downs by penalty at a spot, whatever the down and the line.
  void renew_automatic(int spot) {
    const auto own = static_cast<std::size_t>(field_length - spot);
    for (std::size_t set = 0; set < plan_.penalties.size(); ++set) {
      Values& sum = automatic_[set * field_length + own];
      sum.clear();
      for (const Move& move : plan_.penalties[set][own].first_down)
        sum.add_product(move.probability, first_at(move.own_yard));
    }
  }

  // Value of the snap itself, no penalty.
  void play(int down, int line, int own) {
    const std::size_t r = plan_.row_of[state_index(down, line, own)];
    RowState& row = rows_[r];
    const int to_go = row.spot - line;
    extend_beyond(row, to_go);
    Values out = base_[r];
    out.add(row.beyond);
    const double share = spotted_short(plan_, line);
    if (share > 0) out.add_product(pulled_back(row, line, -share), first_at(field_length - line));
    if (down < down_count) {
      const int start = row.smallest;
      add_products(out, keep(row, start), value_at(down + 1, line, own + start), to_go - start);
      out.add_product(row.kept_out, *value_at(down + 1, line, 1));
      if (share > 0)
        out.add_product(pulled_back(row, line, share),
                        *value_at(down + 1, line, spots_short_of(line)));
    } else {
      out.add(short_[place_index(line, own)]);
      decide(line, own, out);
    }
    settled_[static_cast<std::size_t>(own)] = out;
  }

  // out += sum of p[i] * next[i], as many columns at a time as registers hold.
  static void add_products(Values& out, const Lanes* p, const Values* next, int terms) {
    constexpr std::size_t held = 4;
    for (std::size_t start = 0; start < K; start += held) {
      constexpr std::size_t last = K % held == 0 ? held : K % held;
      if (start + held <= K)
        add_columns<held>(out, p, next, terms, start);
      else
        add_columns<last>(out, p, next, terms, start);
    }
  }

  template <std::size_t Held>
  static void add_columns(Values& out, const Lanes* p, const Values* next, int terms,
                          std::size_t start) {
    std::array<Lanes, Held> sum;
    std::copy_n(out.column.begin() + start, Held, sum.begin());
    for (int i = 0; i < terms; ++i)
      for (std::size_t k = 0; k < Held; ++k) sum[k].add_product(p[i], next[i].column[start + k]);
    std::copy_n(sum.begin(), Held, out.column.begin() + start);
  }

  // Brings the row's sum over gains that make a first down to gains of `to_go` and more.
  void extend_beyond(RowState& row, int to_go) {
    Values sum = row.beyond;  // in registers
    int reached = row.reached;
    while (reached > to_go) {
      --reached;
      sum.add_product(*keep(row, reached), first_at(field_length - row.spot + reached));
    }
    row.beyond = sum;
    row.reached = reached;
  }

  void decide(int line, int own, Values& go) {
    const double* punt = at_spot(rewards_.punt, field_length - own);
    const double* kick = at_spot(rewards_.field_goal, field_length - own);
    Choice& choice = choice_[place_index(line, own)];
    if (maximise_) choose_best(go, punt, kick, choice);
    go.scale(choice.go);
    go.add_product(choice.punt, punt);
    go.add_product(choice.field_goal, kick);
  }

  static void choose_best(const Values& go, const double* punt, const double* kick,
                          Choice& choice) {
    constexpr std::size_t n = std::min(net_index, K - 1);
    for (std::size_t lane = 0; lane < lane_count; ++lane) {
      const bool goes = go.column[n][lane] >= punt[n] && go.column[n][lane] >= kick[n];
      const bool punts = !goes && punt[n] >= kick[n];
      choice.go.set(lane, goes ? 1 : 0);
      choice.punt.set(lane, punts ? 1 : 0);
      choice.field_goal.set(lane, goes || punts ? 0 : 1);
    }
  }

  // Turns the value of the snap into all that does not depend on this down of this line: the snap
  // without a penalty, first downs by penalty, penalties that use up the down.
  void add_settled_penalties(int down, int line, int own) {
    const std::size_t set = plan_.penalty_set_of[state_index(down, line, own)];
    const PenaltyMoves& moves = plan_.penalties[set][static_cast<std::size_t>(own)];
    Values sum = automatic_[set * field_length + static_cast<std::size_t>(own)];
    sum.add_product(1 - moves.total, settled_[static_cast<std::size_t>(own)]);
    // Moves are in the order of own yards: those that reach the line are the last ones.
    for (std::size_t i = moves.replay.size(); i-- > 0;) {
      const Move& move = moves.replay[i];
      if (move.own_yard <= spots_short_of(line)) break;
      sum.add_product(move.probability, first_at(move.own_yard));
    }
    sum.add_product(moves.with_play, rewards_.play.data());
    for (const Move& move : moves.next_down) add_next_down(sum, move, down, line);
    if (plan_.half_hazard > 0) {
      sum.scale(1 - plan_.half_hazard);
      sum.add_product(plan_.half_hazard, rewards_.half.data());
    }
    settled_[static_cast<std::size_t>(own)] = sum;
  }

  void add_next_down(Values& sum, const Move& move, int down, int line) {
    const int own = move.own_yard;
    if (own > spots_short_of(line)) return sum.add_product(move.probability, first_at(own));
    if (down == down_count)
      return sum.add_product(move.probability, at_spot(rewards_.downs, field_length - own));
    sum.add_product(move.probability, *value_at(down + 1, line, own));
  }

  // Puts the spots before `first` in line with it and the next one.
  void extend_back(int first) {
    for (int own = first - 1; own >= 1; --own) {
      const auto at = static_cast<std::size_t>(own);
      settled_[at] = settled_[at + 1];
      settled_[at].add(settled_[at + 1]);
      settled_[at].add_product(-1, settled_[at + 2]);
    }
  }

  // Adds replays of the same down.
  void replay(int down, int line) {
    const int last = spots_short_of(line);
    plan_.replays_at(down, line).settle(settled_.data() + 1, last);
    std::copy_n(settled_.begin() + 1, last, value_at(down, line, 1));
  }

  // Hands the values of new series (and the first down itself) to the lines that follow; in the
  // first sweep spots still unknown start from the last known one. Returns the largest change.
  double publish_first_downs(int line) {
    const int known = std::min(line + series_yards, last_spot);
    const Values last_known = first_at(field_length - known);
    Lanes change;
    for (int spot = line == 0 ? 1 : known; spot <= known; ++spot) {
      const Values before = first_at(field_length - spot);
      publish(spot, spot);
      first_at(field_length - spot).raise_to_gap(before, change);
    }
    if (started_)
      shift_first_downs(known, last_known);
    else
      guess_first_downs(line, known);
    return change.largest();
  }

  // First downs of lines that follow are expected to change as the one just renewed did.
  void shift_first_downs(int known, const Values& before) {
    Values shift = first_at(field_length - known);
    shift.add_product(-1, before);
    for (int spot = known + 1; spot <= last_spot; ++spot) first_at(field_length - spot).add(shift);
  }

  void guess_first_downs(int line, int known) {
    started_ = line + 1 == line_count;
    for (int spot = known + 1; spot <= last_spot; ++spot) publish(spot, known);
    for (int spot = 1; line == 0 && spot <= last_spot; ++spot) renew_automatic(spot);
  }

  void publish(int spot, int as_if) {
    Values& first = first_at(field_length - spot);
    first = value_[state_index(first_down_at(as_if))];
    first.add_product(1, rewards_.first_down.data());
  }

  const Plan& plan_;
  const Rewards& rewards_;
  bool maximise_ = false;
  bool started_ = false;  // every first down has some value
  double tolerance_ = 0;
  int most_to_go_ = last_spot;
  std::vector<Values> value_;  // by state_index
  std::vector<Values> first_;  // by own yard: a new series there
  std::vector<RowState> rows_;
  std::vector<Lanes> keep_;        // the classes' tables, side by side
  std::vector<Values> base_;       // by row
  std::vector<Values> short_;      // by place
  std::vector<Choice> choice_;     // by place
  std::vector<Values> automatic_;  // [penalty set][own yard]
  std::vector<Values> settled_;    // by own yard, of the line and down at hand
  int sweeps_ = 0;
};

}  // namespace callfit::drive
