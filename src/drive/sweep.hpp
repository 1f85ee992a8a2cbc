// The exact engine's inner part: values of every state of one quality class, by sweeps over the
// lines to gain from the goal line outward.
//
// For one line, and downs 4 to 1, a play leads to the next down of the same series (already
// known), to a new series whose line lies nearer the goal (already known), or ends the drive. Only
// penalties lead back: to the same down of the same series, and, when a first down by penalty is
// called far behind the line, to a series that starts short of this line. The former is solved
// on the spot, the latter by sweeping again; each sweep shrinks the error by three to four digits.
#pragma once

#include <drive/table.hpp>

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
        base_(plan.rows.size() * K),
        beyond_(plan.rows.size() * K),
        reached_(plan.rows.size()),
        short_(states_per_down * K),
        automatic_(plan.penalties.size() * field_length * K),
        settled_(field_length * K) {
    for (std::size_t r = 0; r < plan.rows.size(); ++r) set_base(r);
    set_fourth_down_short();
  }

  /// Lets the policy be replaced, place by place, by the choice that maximises the net column.
  void maximise_net(FourthDownPlan& chosen) { chosen_ = &chosen; }

  void solve() {
    while (sweep() > tolerance) {
    }
  }

  /// [state_index][column]
  const std::vector<double>& values() const { return value_; }
  int sweeps() const { return sweeps_; }

 private:
  static constexpr double tolerance = 1e-12;
  static constexpr int most_passes = 60;
  // Distances at which first downs by penalty are brought up to date: ten yards to go is what
  // counts, longer ones are rare.
  static constexpr std::array refreshed_at{series_yards, 15, 20};

  static void add_scaled(double* out, double by, const double* in) {
    for (std::size_t k = 0; k < K; ++k) out[k] += by * in[k];
  }

  static void add_products(double* out, const double* p, const double* v, int count) {
    constexpr std::size_t lanes = K <= 4 ? 4 : 1;
    double sum[lanes][K] = {};
    int i = 0;
    for (; i + static_cast<int>(lanes) <= count; i += static_cast<int>(lanes))
      for (std::size_t u = 0; u < lanes; ++u)
        for (std::size_t k = 0; k < K; ++k)
          sum[u][k] +=
              p[static_cast<std::size_t>(i) + u] * v[(static_cast<std::size_t>(i) + u) * K + k];
    for (; i < count; ++i) add_scaled(sum[0], p[i], v + static_cast<std::size_t>(i) * K);
    for (std::size_t u = 0; u < lanes; ++u)
      for (std::size_t k = 0; k < K; ++k) out[k] += sum[u][k];
  }

  // Where the row's gain of `yards` lies in the pools.
  std::size_t pool_index(const Row& row, int yards) const {
    return plan_.slices[row.slice].offset + static_cast<std::size_t>(yards - plan_.first_gain);
  }
  int smallest_gain_on_field(const Row& row) const {
    return std::max(plan_.first_gain, row.yards_to_goal - last_spot);
  }
  double* value_at(int down, int line, int own) {
    return value_.data() + state_index(down, line, own) * K;
  }
  double* first_at(int own) { return first_.data() + static_cast<std::size_t>(own) * K; }

  // What the play itself is worth, whatever the down: scores, turnovers, safeties.
  void set_base(std::size_t r) {
    const Row& row = plan_.rows[r];
    const int spot = row.yards_to_goal;
    double* base = base_.data() + r * K;
    add_scaled(base, 1, rewards_.call.data() + plan_.contexts[row.context].situation * K);
    add_scaled(base, table_.touchdown[r], rewards_.touchdown.data());
    const std::size_t families = plan_.setting.families.size();
    for (std::size_t f = 0; f < families; ++f)
      add_scaled(
          base, table_.interception[row.context * families + f],
          rewards_.interception.data() + (f * field_length + static_cast<std::size_t>(spot)) * K);
    for (int g = plan_.first_gain; g < spot; ++g)
      add_scaled(
          base, table_.fumble[pool_index(row, g)],
          rewards_.fumble.data() + static_cast<std::size_t>(std::min(spot - g, last_spot)) * K);
    for (int g = plan_.first_gain; g <= spot - field_length; ++g)
      add_scaled(base, table_.keep[pool_index(row, g)], rewards_.safety.data());
  }

  // On fourth down every gain short of the line is a turnover on downs.
  void set_fourth_down_short() {
    std::vector<double> sum(plan_.rows.size() * K);
    std::vector<int> next(plan_.rows.size(), std::numeric_limits<int>::min());
    for (int own = 1; own <= last_spot; ++own)
      for (int line = last_spot - own; line >= 0; --line) {
        const int spot = field_length - own;
        const std::size_t r = plan_.row_of[state_index(down_count, line, own)];
        const Row& row = plan_.rows[r];
        int& g = next[r];
        for (g = std::max(g, smallest_gain_on_field(row)); g < spot - line; ++g)
          add_scaled(sum.data() + r * K, table_.keep[pool_index(row, g)],
                     rewards_.downs.data() + static_cast<std::size_t>(spot - g) * K);
        std::copy_n(sum.data() + r * K, K, short_.data() + place_index(line, own) * K);
      }
  }

  double sweep() {
    std::fill(beyond_.begin(), beyond_.end(), 0.0);
    for (std::size_t r = 0; r < reached_.size(); ++r) reached_[r] = plan_.rows[r].yards_to_goal;
    double change = 0;
    for (int line = 0; line < line_count; ++line) change = std::max(change, settle(line));
    ++sweeps_;
    return change;
  }

  // Series to the goal line are their own first downs by penalty, so that line takes several turns.
  double settle(int line) {
    double change = solve_line(line);
    if (line > 0) return change;
    for (int turn = 0; turn < most_passes && solve_line(line) > tolerance / 10; ++turn) {
    }
    return change;
  }

  double solve_line(int line) {
    for (const int to_go : refreshed_at) renew_automatic(line + to_go);
    for (int spot = 1; line == 0 && spot < series_yards; ++spot) renew_automatic(spot);
    double change = 0;
    for (int down = down_count; down >= 1; --down) {
      for (int own = 1; own <= spots_short_of(line); ++own) {
        play(down, line, own);
        add_settled_penalties(down, line, own);
      }
      change = std::max(change, replay_penalties(down, line));
    }
    publish_first_downs(line);
    return change;
  }

  // First downs by penalty at a spot, whatever the down and the line.
  void renew_automatic(int spot) {
    if (spot > last_spot) return;
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
    const Row& row = plan_.rows[r];
    const int to_go = row.yards_to_goal - line;
    double* out = settled_.data() + static_cast<std::size_t>(own) * K;
    extend_beyond(r, to_go);
    for (std::size_t k = 0; k < K; ++k) out[k] = base_[r * K + k] + beyond_[r * K + k];
    if (down == down_count) {
      add_scaled(out, 1, short_.data() + place_index(line, own) * K);
      decide(line, own, out);
      return;
    }
    const int start = smallest_gain_on_field(row);
    add_products(out, table_.keep.data() + pool_index(row, start),
                 value_at(down + 1, line, own + start), to_go - start);
  }

  // Brings the row's sum over gains that make a first down to gains of `to_go` and more.
  void extend_beyond(std::size_t r, int to_go) {
    const Row& row = plan_.rows[r];
    int& reached = reached_[r];
    while (reached > to_go) {
      --reached;
      add_scaled(beyond_.data() + r * K, table_.keep[pool_index(row, reached)],
                 first_at(field_length - row.yards_to_goal + reached));
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
    double* sum = settled_.data() + static_cast<std::size_t>(own) * K;
    const double* automatic =
        automatic_.data() + (set * field_length + static_cast<std::size_t>(own)) * K;
    for (std::size_t k = 0; k < K; ++k) sum[k] = (1 - moves.total) * sum[k] + automatic[k];
    for (const Move& move : moves.replay)
      if (move.own_yard > spots_short_of(line))
        add_scaled(sum, move.probability, first_at(move.own_yard));
    for (const Move& move : moves.next_down) {
      add_scaled(sum, move.probability, rewards_.play.data());
      add_scaled(sum, move.probability, after_next_down(down, line, move.own_yard));
    }
  }

  const double* after_next_down(int down, int line, int own) {
    if (own > spots_short_of(line)) return first_at(own);
    if (down < down_count) return value_at(down + 1, line, own);
    return rewards_.downs.data() + static_cast<std::size_t>(field_length - own) * K;
  }

  // Adds replays of the same down. Spots are taken from the own goal outward, so that penalties on
  // the offence need no second pass.
  double replay_penalties(int down, int line) {
    double change = 0;
    for (int pass = 0; pass < most_passes; ++pass) {
      const double moved = replay_pass(down, line);
      if (pass == 0) change = moved;
      if (moved < tolerance / 100) break;
    }
    return change;
  }

  double replay_pass(int down, int line) {
    double change = 0;
    for (int own = 1; own <= spots_short_of(line); ++own) {
      double sum[K];
      std::copy_n(settled_.data() + static_cast<std::size_t>(own) * K, K, sum);
      for (const Move& move : penalties_at(down, line, own).replay)
        if (move.own_yard <= spots_short_of(line))
          add_scaled(sum, move.probability, value_at(down, line, move.own_yard));
      double* value = value_at(down, line, own);
      for (std::size_t k = 0; k < K; ++k) {
        const double now = plan_.half_hazard * rewards_.half[k] + (1 - plan_.half_hazard) * sum[k];
        change = std::max(change, std::abs(now - value[k]));
        value[k] = now;
      }
    }
    return change;
  }

  // Hands the values of new series (and the first down itself) to the lines that follow; in the
  // first sweep spots still unknown start from the last known one.
  void publish_first_downs(int line) {
    const int last = sweeps_ == 0 ? last_spot : line + series_yards;
    for (int spot = line == 0 ? 1 : line + series_yards; spot <= std::min(last, last_spot);
         ++spot) {
      const int known = std::min(spot, line + series_yards);
      const double* value = value_at(1, line_of_series(known), field_length - known);
      double* first = first_at(field_length - spot);
      for (std::size_t k = 0; k < K; ++k) first[k] = value[k] + rewards_.first_down[k];
    }
    for (int spot = 1; sweeps_ == 0 && line == 0 && spot <= last_spot; ++spot)
      renew_automatic(spot);
  }

  const Plan& plan_;
  const ClassTable& table_;
  const Rewards& rewards_;
  const FourthDownPlan& policy_;
  FourthDownPlan* chosen_ = nullptr;
  std::vector<double> value_;      // [state][column]
  std::vector<double> first_;      // [own yard][column]: a new series there
  std::vector<double> base_;       // [row][column]
  std::vector<double> beyond_;     // [row][column]: gains of reached_[row] yards and more
  std::vector<int> reached_;       // [row]
  std::vector<double> short_;      // [place][column]
  std::vector<double> automatic_;  // [penalty set][own yard][column]
  std::vector<double> settled_;    // [own yard][column], of the line and down at hand
  int sweeps_ = 0;
};

}  // namespace callfit::drive
