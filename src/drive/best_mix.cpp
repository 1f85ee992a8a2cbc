#include <base/vector_loops.hpp>
#include <callfit/drive/best_mix.hpp>
#include <drive/exact.hpp>
#include <drive/played_parts.hpp>

#include <algorithm>
#include <cmath>
#include <limits>

namespace callfit {
namespace drive {
namespace {

constexpr std::size_t columns = 2;  // of the plan's rewards: points, net

// One family against one shell everywhere it can be called.
struct PureCall {
  ClassTable table;
  std::vector<double> base;    // by row: what ends the drive on this play
  std::vector<bool> callable;  // by context
};

// A value that Replays can settle.
struct Plain {
  double value = 0;
  void add_product(double by, const Plain& other) { value += by * other.value; }
  void scale(double by) { value *= by; }
};

// Several sums side by side, so that no addition waits for the one before.
CALLFIT_WIDE_VECTORS
double sum_of_products(const double* a, const double* b, std::size_t count) {
  constexpr std::size_t sums = 8;
  std::array<double, sums> sum{};
  std::size_t i = 0;
  for (; i + sums <= count; i += sums)
    for (std::size_t j = 0; j < sums; ++j) sum[j] += a[i + j] * b[i + j];
  for (std::size_t j = 0; i + j < count; ++j) sum[j] += a[i + j] * b[i + j];
  return ((sum[0] + sum[4]) + (sum[1] + sum[5])) + ((sum[2] + sum[6]) + (sum[3] + sum[7]));
}

class BestSweep {
 public:
  /// `known`: first downs of the scheme as it is called, to start from.
  BestSweep(const Plan& plan, const PlayedParts& parts, std::size_t quality, const BestWorth& best,
            const FirstDowns<2>& known)
      : plan_(plan),
        best_(best),
        families_(plan.scheme.families.size()),
        policy_(table_policy(plan)),
        value_(state_count, 0.0),
        worth_(families_) {
    for (int y = 1; y <= last_spot; ++y)
      value_[state_index(first_down_at(y))] = known[static_cast<std::size_t>(y)][net_index];
    for (std::size_t shell = 0; shell < shell_count; ++shell)
      for (std::size_t f = 0; f < families_; ++f)
        pure_.push_back(pure_call(parts, quality, f, shell));
  }

  /// Errors shrink from sweep to sweep by about the factor by which the changes do.
  const std::vector<double>& solve() {
    double before = sweep();
    double change = sweep();
    while (change * std::min(1.0, change / before) > tolerance) {
      before = change;
      change = sweep();
    }
    return value_;
  }

 private:
  static constexpr double tolerance = 1e-7;

  double reward(const std::vector<double>& by_yards, int yards_to_goal) const {
    return by_yards[static_cast<std::size_t>(yards_to_goal) * columns + net_index];
  }
  double reward(const std::vector<double>& single) const { return single[net_index]; }
  double value_at(int down, int line, int own) const {
    return value_[state_index(down, line, own)];
  }
  double series_at(int own) const {
    return value_at(1, line_of_series(field_length - own), own) +
           reward(plan_.point_rewards.first_down);
  }

  PureCall pure_call(const PlayedParts& parts, std::size_t quality, std::size_t family,
                     std::size_t shell) const {
    ContextMixes alone(plan_.contexts.size());
    PureCall pure;
    for (std::size_t c = 0; c < plan_.contexts.size(); ++c) {
      for (const Call& call : plan_.calls[quality][c])
        if (call.family == family && call.shell == shell && call.per_share > 0)
          alone[c].push_back({call.play, 1});
      pure.callable.push_back(!alone[c].empty());
    }
    pure.table = compile_mixes(plan_, plan_.every_call, parts, alone);
    for (const Row& row : plan_.rows) pure.base.push_back(base_of(pure.table, row));
    return pure;
  }

  double base_of(const ClassTable& table, const Row& row) const {
    const auto r = static_cast<std::size_t>(&row - plan_.rows.data());
    const Rewards& rewards = plan_.point_rewards;
    double sum = reward(rewards.play) + table.touchdown[r] * reward(rewards.touchdown);
    const std::size_t families = plan_.setting.families.size();
    for (std::size_t f = 0; f < families; ++f)
      sum += table.interception[row.context * families + f] *
             reward(rewards.interception, static_cast<int>(f) * field_length + row.yards_to_goal);
    const std::size_t offset = plan_.every_call.of_row(r).offset;
    for (int g = plan_.first_gain; g < row.yards_to_goal; ++g) {
      const std::size_t at = offset + static_cast<std::size_t>(g - plan_.first_gain);
      sum += table.fumble[at] * reward(rewards.fumble, std::min(row.yards_to_goal - g, last_spot));
      if (g <= row.yards_to_goal - field_length) sum += table.keep[at] * reward(rewards.safety);
    }
    return sum;
  }

  double sweep() {
    double change = 0;
    for (int line = 0; line < line_count; ++line) change = std::max(change, settle(line));
    return change;
  }

  // Series to the goal line are their own first downs by penalty, so that line takes several turns.
  double settle(int line) {
    constexpr int most_turns = 60;
    const double change = solve_line(line);
    for (int turn = 1; line == 0 && turn < most_turns; ++turn)
      if (solve_line(line) <= tolerance) break;
    return change;
  }

  // Returns the largest change of the line's first downs, which all other values follow from.
  double solve_line(int line) {
    const auto first_downs = [&](const auto& visit) {
      const int known = std::min(line + series_yards, last_spot);
      for (int spot = line == 0 ? 1 : known; spot <= known; ++spot)
        visit(value_[state_index(first_down_at(spot))]);
    };
    std::vector<double> before;
    first_downs([&](double value) { before.push_back(value); });
    for (int down = down_count; down >= 1; --down) solve_down(down, line);
    double change = 0;
    double shift = 0;
    auto was = before.begin();
    first_downs([&](double value) {
      shift = value - *was++;
      change = std::max(change, std::abs(shift));
    });
    // First downs of lines that follow are expected to change as the last one did.
    for (int spot = line + series_yards + 1; spot <= last_spot; ++spot)
      value_[state_index(first_down_at(spot))] += shift;
    return change;
  }

  void solve_down(int down, int line) {
    const int last = spots_short_of(line);
    std::array<Plain, field_length> settled{};
    for (int own = 1; own <= last; ++own)
      settled[static_cast<std::size_t>(own)].value =
          plan_.half_hazard * reward(plan_.point_rewards.half) +
          (1 - plan_.half_hazard) * settled_value(down, line, own);
    plan_.replays_at(down, line).settle(settled.data() + 1, last);
    for (int own = 1; own <= last; ++own)
      value_[state_index(down, line, own)] = settled[static_cast<std::size_t>(own)].value;
  }

  // All but replays of the same down of the same series.
  double settled_value(int down, int line, int own) {
    const PenaltyMoves& moves = plan_.penalties_at(down, line, own);
    double sum = (1 - moves.total) * decided(down, line, own) +
                 moves.with_play * reward(plan_.point_rewards.play);
    for (const Move& move : moves.first_down) sum += move.probability * series_at(move.own_yard);
    for (const Move& move : moves.replay)
      if (move.own_yard > spots_short_of(line)) sum += move.probability * series_at(move.own_yard);
    for (const Move& move : moves.next_down)
      sum += move.probability * after_next_down(down, line, move.own_yard);
    return sum;
  }

  double after_next_down(int down, int line, int own) const {
    if (own > spots_short_of(line)) return series_at(own);
    if (down < down_count) return value_at(down + 1, line, own);
    return reward(plan_.point_rewards.downs, field_length - own);
  }

  double decided(int down, int line, int own) {
    const double go = best_play(down, line, own);
    if (down < down_count) return go;
    const int spot = field_length - own;
    const double punt = reward(plan_.point_rewards.punt, spot);
    const double kick = reward(plan_.point_rewards.field_goal, spot);
    if (plan_.options.policy == FourthDownPolicy::best) return std::max({go, punt, kick});
    const FourthDownShares& shares = policy_[place_index(line, own)];
    return shares.go * go + shares.punt * punt + shares.field_goal * kick;
  }

  // What follows gains smallest, smallest + 1, ... up to the last short of the goal.
  void find_following(int down, int line, int own, int smallest) {
    const int spot = field_length - own;
    next_.clear();
    for (int g = smallest; g < spot - line; ++g)
      next_.push_back(down < down_count ? value_at(down + 1, line, own + g)
                                        : reward(plan_.point_rewards.downs, spot - g));
    for (int g = spot - line; g < spot; ++g) next_.push_back(series_at(own + g));
  }

  double best_play(int down, int line, int own) {
    const std::size_t r = plan_.row_of[state_index(down, line, own)];
    const Row& row = plan_.rows[r];
    const Context& context = plan_.contexts[row.context];
    const int smallest = std::max(plan_.first_gain, row.yards_to_goal - last_spot);
    find_following(down, line, own, smallest);
    const std::size_t start =
        plan_.every_call.of_row(r).offset + static_cast<std::size_t>(smallest - plan_.first_gain);
    double sum = 0;
    for (std::size_t shell = 0; shell < shell_count; ++shell) {
      const double share = shell_share(context, shell);
      if (share > 0) sum += share * best_against(shell, r, start);
    }
    return sum;
  }

  double shell_share(const Context& context, std::size_t shell) const {
    if (plan_.setting.shells.empty()) return shell == 0 ? 1 : 0;
    return plan_.setting.shells[context.shell_rule].share[shell];
  }

  double best_against(std::size_t shell, std::size_t r, std::size_t start) {
    const Row& row = plan_.rows[r];
    double most = -std::numeric_limits<double>::infinity();
    for (std::size_t f = 0; f < families_; ++f) {
      const PureCall& pure = pure_[shell * families_ + f];
      if (!pure.callable[row.context]) continue;
      worth_[f] = pure.base[r] +
                  sum_of_products(pure.table.keep.data() + start, next_.data(), next_.size());
      most = std::max(most, worth_[f]);
    }
    for (std::size_t f = 0; f < families_; ++f)
      if (!pure_[shell * families_ + f].callable[row.context]) worth_[f] = most;
    return best_(plan_.contexts[row.context].situation, shell, worth_);
  }

  const Plan& plan_;
  const BestWorth& best_;
  std::size_t families_;
  FourthDownPlan policy_;
  std::vector<double> value_;   // by state_index
  std::vector<PureCall> pure_;  // [shell][scheme family]
  std::vector<double> worth_;   // of families, in the state at hand
  std::vector<double> next_;    // what follows gains there
};

}  // namespace
}  // namespace drive

double best_net_points(const DrivePlan& plan, const Player& player,
                       const std::vector<double>& start_share, const BestWorth& best) {
  const drive::Plan& plays = plan.parts();
  const drive::PlayedParts parts(plays, player, plays.all);
  const drive::Table table = drive::compile(plan.shared_parts(), parts);
  const std::vector<drive::ClassPoints> called = drive::solve_class_points(table, {1e-3, nullptr});
  double sum = 0;
  for (std::size_t k = 0; k < plays.classes(); ++k) {
    drive::BestSweep sweep(plays, parts, k, best, called[k].first_and_ten);
    const std::vector<double>& values = sweep.solve();
    for (int y = 1; y <= drive::last_spot; ++y)
      sum += drive::class_weight(plays, k) * start_share[static_cast<std::size_t>(y)] *
             values[drive::state_index(first_down_at(y))];
  }
  return sum;
}

}  // namespace callfit
