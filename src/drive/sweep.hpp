// The exact engine's inner part: values of every state of one quality class, by sweeps over the
// lines to gain from the goal line outward.
//
// For one line, and downs 4 to 1, a play leads to the next down of the same series (already
// known), to a new series whose line lies nearer the goal (already known), or ends the drive. Only
// penalties lead back: to the same down of the same series, and, when a first down by penalty is
// called far behind the line, to a series whose line comes later. A few sweeps settle those too.
#pragma once

#include <drive/table.hpp>

#include <Eigen/Core>

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
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

/// K columns at once, side by side. The values of a line and down lie together by own yard: what a
/// play can lead to within its series is one stretch of memory.
template <std::size_t K>
class Sweep {
 public:
  Sweep(const Plan& plan, const ClassTable& table, const Rewards& rewards,
        const FourthDownPlan& policy)
      : plan_(plan),
        table_(table),
        rewards_(rewards),
        policy_(policy),
        value_(state_count * K),
        first_(field_length * K),
        rows_(plan.rows.size()),
        base_(plan.rows.size() * K),
        short_(states_per_down * K),
        automatic_(plan.penalties.size() * field_length * K),
        settled_(field_length * K) {
    for (std::size_t r = 0; r < plan.rows.size(); ++r) set_row(r);
    set_fourth_down_short();
  }

  /// Lets the policy be replaced, place by place, by the choice that maximises the net column.
  void maximise_net(FourthDownPlan& chosen) { chosen_ = &chosen; }

  /// Sweeps until the values are expected to be right to `tolerance`: errors shrink from sweep to
  /// sweep by about the factor by which the changes do.
  void solve() {
    double change = std::numeric_limits<double>::infinity();
    for (double before = change; sweeps_ < 2 || change * std::min(1.0, change / before) > tolerance;
         ++sweeps_) {
      before = change;
      change = sweep();
    }
  }

  double value(const DriveState& state, std::size_t column) const {
    return value(state_index(state), column);
  }
  double value(std::size_t state, std::size_t column) const { return value_[state * K + column]; }
  int sweeps() const { return sweeps_; }

 private:
  static constexpr double tolerance = 1e-13;
  static constexpr int replay_passes = 2;
  static constexpr int most_turns = 60;
  // First downs by penalty are brought up to date for every spot this far behind the line; those
  // farther back use the sweep before.
  static constexpr int refreshed_to = 30;

  struct RowState {
    std::size_t pool = 0;  // of a gain of 0
    int spot = 0;
    int smallest = 0;  // gain that stays on the field
    int reached = 0;   // `beyond` holds gains of `reached` yards and more
    std::array<double, K> beyond{};
  };

  using Columns = Eigen::Array<double, static_cast<int>(K), 1>;
  using Load = Eigen::Map<const Columns>;
  using Store = Eigen::Map<Columns>;

  static void add_scaled(double* out, double by, const double* in) { Store(out) += by * Load(in); }

  double* value_at(int down, int line, int own) {
    return value_.data() + state_index(down, line, own) * K;
  }
  double* first_at(int own) { return first_.data() + static_cast<std::size_t>(own) * K; }
  double* settled_at(int own) { return settled_.data() + static_cast<std::size_t>(own) * K; }
  const double* keep(const RowState& row, int gain) const {
    return table_.keep.data() + (row.pool + static_cast<std::size_t>(gain));
  }

  // What the play itself is worth, whatever the down: scores, turnovers, safeties.
  void set_row(std::size_t r) {
    const Row& row = plan_.rows[r];
    const int spot = row.yards_to_goal;
    RowState& state = rows_[r];
    state.pool = plan_.slices[row.slice].offset - static_cast<std::size_t>(plan_.first_gain);
    state.spot = spot;
    state.smallest = std::max(plan_.first_gain, spot - last_spot);
    double* base = base_.data() + r * K;
    add_scaled(base, 1, rewards_.call.data() + plan_.contexts[row.context].situation * K);
    add_scaled(base, table_.touchdown[r], rewards_.touchdown.data());
    const std::size_t families = plan_.setting.families.size();
    for (std::size_t f = 0; f < families; ++f)
      add_scaled(
          base, table_.interception[row.context * families + f],
          rewards_.interception.data() + (f * field_length + static_cast<std::size_t>(spot)) * K);
    const double* fumble = table_.fumble.data() + (state.pool + static_cast<std::size_t>(0));
    for (int g = plan_.first_gain; g < spot; ++g)
      add_scaled(
          base, fumble[g],
          rewards_.fumble.data() + static_cast<std::size_t>(std::min(spot - g, last_spot)) * K);
    for (int g = plan_.first_gain; g <= spot - field_length; ++g)
      add_scaled(base, *keep(state, g), rewards_.safety.data());
  }

  // On fourth down every gain short of the line is a turnover on downs.
  void set_fourth_down_short() {
    std::vector<double> sum(rows_.size() * K);
    std::vector<int> next(rows_.size(), std::numeric_limits<int>::min());
    for (int own = 1; own <= last_spot; ++own)
      for (int line = last_spot - own; line >= 0; --line) {
        const std::size_t r = plan_.row_of[state_index(down_count, line, own)];
        const RowState& row = rows_[r];
        int& g = next[r];
        for (g = std::max(g, row.smallest); g < row.spot - line; ++g)
          add_scaled(sum.data() + r * K, *keep(row, g),
                     rewards_.downs.data() + static_cast<std::size_t>(row.spot - g) * K);
        std::copy_n(sum.data() + r * K, K, short_.data() + place_index(line, own) * K);
      }
  }

  double sweep() {
    for (RowState& row : rows_) {
      row.beyond = {};
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
      if (solve_line(line) <= tolerance) break;
    return change;
  }

  double solve_line(int line) {
    for (int spot = line + 1; spot <= std::min(line + refreshed_to, last_spot); ++spot)
      renew_automatic(spot);
    double change = 0;
    for (int down = down_count; down >= 1; --down) {
      for (int own = 1; own <= spots_short_of(line); ++own) {
        play(down, line, own);
        add_settled_penalties(down, line, own);
      }
      change = std::max(change, replay(down, line));
    }
    publish_first_downs(line);
    return change;
  }

  // First downs by penalty at a spot, whatever the down and the line.
  void renew_automatic(int spot) {
    const auto own = static_cast<std::size_t>(field_length - spot);
    for (std::size_t set = 0; set < plan_.penalties.size(); ++set) {
      double* sum = automatic_.data() + (set * field_length + own) * K;
      std::fill_n(sum, K, 0.0);
      for (const Move& move : plan_.penalties[set][own].first_down)
        add_scaled(sum, move.probability, first_at(move.own_yard));
    }
  }

  // Value of the snap itself, no penalty.
  void play(int down, int line, int own) {
    const std::size_t r = plan_.row_of[state_index(down, line, own)];
    RowState& row = rows_[r];
    const int to_go = row.spot - line;
    extend_beyond(row, to_go);
    double* out = settled_at(own);
    for (std::size_t k = 0; k < K; ++k) out[k] = base_[r * K + k] + row.beyond[k];
    if (down < down_count) {
      const int start = row.smallest;
      add_products(out, keep(row, start), value_at(down + 1, line, own + start), to_go - start);
      return;
    }
    add_scaled(out, 1, short_.data() + place_index(line, own) * K);
    decide(line, own, out);
  }

  // out += sum of p[i] * v[i], in several sums at a time for few columns.
  static void add_products(double* out, const double* p, const double* v, int terms) {
    constexpr std::size_t lanes = K <= 4 ? 4 : 1;
    const auto count = static_cast<std::size_t>(terms);
    std::array<Columns, lanes> sum;
    sum.fill(Columns::Zero());
    std::size_t i = 0;
    for (; i + lanes <= count; i += lanes)
      for (std::size_t u = 0; u < lanes; ++u) sum[u] += p[i + u] * Load(v + (i + u) * K);
    for (; i < count; ++i) sum[0] += p[i] * Load(v + i * K);
    for (const Columns& part : sum) Store(out) += part;
  }

  // Brings the row's sum over gains that make a first down to gains of `to_go` and more.
  void extend_beyond(RowState& row, int to_go) {
    while (row.reached > to_go) {
      --row.reached;
      add_scaled(row.beyond.data(), *keep(row, row.reached),
                 first_at(field_length - row.spot + row.reached));
    }
  }

  void decide(int line, int own, double* go) {
    const auto spot = static_cast<std::size_t>(field_length - own);
    const double* punt = rewards_.punt.data() + spot * K;
    const double* kick = rewards_.field_goal.data() + spot * K;
    FourthDownShares shares = policy_[place_index(line, own)];
    if (chosen_ != nullptr) {
      shares = best_of(go, punt, kick);
      (*chosen_)[place_index(line, own)] = shares;
    }
    for (std::size_t k = 0; k < K; ++k)
      go[k] = shares.go * go[k] + shares.punt * punt[k] + shares.field_goal * kick[k];
  }

  static FourthDownShares best_of(const double* go, const double* punt, const double* kick) {
    constexpr std::size_t n = std::min(net_index, K - 1);
    if (go[n] >= punt[n] && go[n] >= kick[n]) return {1, 0, 0};
    if (punt[n] >= kick[n]) return {0, 1, 0};
    return {0, 0, 1};
  }

  const PenaltyMoves& penalties_at(int down, int line, int own) const {
    const std::size_t set = plan_.penalty_set_of[state_index(down, line, own)];
    return plan_.penalties[set][static_cast<std::size_t>(own)];
  }

  // Turns the value of the snap into all that does not depend on this down of this line: the snap
  // without a penalty, first downs by penalty, penalties that use up the down.
  void add_settled_penalties(int down, int line, int own) {
    const std::size_t set = plan_.penalty_set_of[state_index(down, line, own)];
    const PenaltyMoves& moves = plan_.penalties[set][static_cast<std::size_t>(own)];
    double* sum = settled_at(own);
    const double* automatic =
        automatic_.data() + (set * field_length + static_cast<std::size_t>(own)) * K;
    for (std::size_t k = 0; k < K; ++k) sum[k] = (1 - moves.total) * sum[k] + automatic[k];
    // Moves are in the order of own yards: those that reach the line are the last ones.
    for (auto move = moves.replay.rbegin(); move != moves.replay.rend(); ++move) {
      if (move->own_yard <= spots_short_of(line)) break;
      add_scaled(sum, move->probability, first_at(move->own_yard));
    }
    for (const Move& move : moves.next_down) {
      add_scaled(sum, move.probability, rewards_.play.data());
      add_next_down(sum, move, down, line);
    }
    for (std::size_t k = 0; k < K; ++k)
      sum[k] = plan_.half_hazard * rewards_.half[k] + (1 - plan_.half_hazard) * sum[k];
  }

  void add_next_down(double* sum, const Move& move, int down, int line) {
    const int own = move.own_yard;
    if (own > spots_short_of(line)) return add_scaled(sum, move.probability, first_at(own));
    if (down == down_count)
      return add_scaled(sum, move.probability,
                        rewards_.downs.data() + static_cast<std::size_t>(field_length - own) * K);
    add_scaled(sum, move.probability, value_at(down + 1, line, own));
  }

  // Adds replays of the same down. Spots are taken from the own goal outward, so that penalties on
  // the offence are exact at once; those on the defence are followed up in further passes.
  double replay(int down, int line) {
    double change = replay_pass(down, line);
    for (int pass = 1; pass < replay_passes; ++pass) replay_pass(down, line);
    return change;
  }

  double replay_pass(int down, int line) {
    const double play_on = 1 - plan_.half_hazard;
    const int last = spots_short_of(line);
    double* line_values = value_at(down, line, 1) - K;
    Columns change = Columns::Zero();
    for (int own = 1; own <= last; ++own) {
      Columns sum = Load(settled_at(own));
      for (const Move& move : penalties_at(down, line, own).replay) {
        if (move.own_yard > last) break;
        sum += (play_on * move.probability) *
               Load(line_values + static_cast<std::size_t>(move.own_yard) * K);
      }
      Store value(line_values + static_cast<std::size_t>(own) * K);
      change = change.max((sum - value).abs());
      value = sum;
    }
    return change.maxCoeff();
  }

  // Hands the values of new series (and the first down itself) to the lines that follow; in the
  // first sweep spots still unknown start from the last known one.
  void publish_first_downs(int line) {
    const int known = std::min(line + series_yards, last_spot);
    for (int spot = line == 0 ? 1 : known; spot <= known; ++spot) publish(spot, spot);
    if (sweeps_ > 0) return;
    for (int spot = known + 1; spot <= last_spot; ++spot) publish(spot, known);
    for (int spot = 1; line == 0 && spot <= last_spot; ++spot) renew_automatic(spot);
  }

  void publish(int spot, int as_if) {
    double* first = first_at(field_length - spot);
    for (std::size_t k = 0; k < K; ++k)
      first[k] = value_[state_index(first_down_at(as_if)) * K + k] + rewards_.first_down[k];
  }

  const Plan& plan_;
  const ClassTable& table_;
  const Rewards& rewards_;
  const FourthDownPlan& policy_;
  FourthDownPlan* chosen_ = nullptr;
  std::vector<double> value_;  // [state][column]
  std::vector<double> first_;  // [own yard][column]: a new series there
  std::vector<RowState> rows_;
  std::vector<double> base_;       // [row][column]
  std::vector<double> short_;      // [place][column]
  std::vector<double> automatic_;  // [penalty set][own yard][column]
  std::vector<double> settled_;    // [own yard][column], of the line and down at hand
  int sweeps_ = 0;
};

}  // namespace callfit::drive
