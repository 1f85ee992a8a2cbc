#include "chain.hpp"

#include <Eigen/SparseLU>

#include <algorithm>
#include <map>

namespace chain {
namespace {

using namespace callfit;
using callfit::drive::Slot;

// One state's step. Written from the rules, state by state; shares nothing with the sweep.
class Step {
 public:
  Step(const drive::Table& table, std::size_t quality, const DriveState& state)
      : plan_(*table.plan),
        outcomes_(table.classes[quality]),
        state_(state),
        line_(state.yards_to_goal - state.to_go) {}

  std::map<std::size_t, double> next;
  Eigen::RowVectorXd reward = Eigen::RowVectorXd::Zero(drive::full_columns);
  double leaves = 0;

  void run(const drive::FourthDownShares& choice) {
    const double half = plan_.half_hazard;
    end(DriveResult::end_of_half, drive::half_slot, half);
    const double penalised = penalties(1 - half);
    double rest = (1 - half) - penalised;
    if (state_.down == 4) {
      kick(rest * choice.field_goal);
      end_at(DriveResult::punt, plan_.endings.punt[spot()], rest * choice.punt);
      rest *= choice.go;
    }
    play(rest);
  }

 private:
  std::size_t spot() const { return static_cast<std::size_t>(state_.yards_to_goal); }

  void end(DriveResult how, Slot where, double p) {
    leaves += p;
    reward(0) += p * plan_.points.ending(how, where);
    reward(1) += p * plan_.net.ending(how, where);
    reward(2 + static_cast<int>(how)) += p;
  }

  void end_at(DriveResult how, const drive::Takeover& where, double p) {
    for (Slot s = 0; s < drive::slot_count; ++s)
      if (where[s] > 0) end(how, s, p * where[s]);
  }

  void go_to(int down, int to_go, int yards_to_goal, double p) {
    const DriveState at{down, to_go, yards_to_goal};
    next[drive::state_index(at)] += p;
  }

  void new_series(int yards_to_goal, double p) {
    reward(11) += p;
    go_to(1, std::min(10, yards_to_goal), yards_to_goal, p);
  }

  void after(int yards_to_goal, double p, bool down_is_used) {
    if (yards_to_goal <= line_) return new_series(yards_to_goal, p);
    const int down = state_.down + (down_is_used ? 1 : 0);
    if (down == 5) return end(DriveResult::downs, static_cast<Slot>(yards_to_goal), p);
    go_to(down, yards_to_goal - line_, yards_to_goal, p);
  }

  double penalties(double share) {
    double total = 0;
    for (const Penalty& penalty : plan_.setting.penalties) {
      if (!penalty.when.matches(state_.down, state_.to_go, state_.yards_to_goal)) continue;
      const bool whole = !penalty.move.p.empty();
      const YardPmf& yards = whole ? penalty.move : penalty.yards;
      for (int y = yards.first; y <= yards.last(); ++y) {
        const double p = share * penalty.probability * yards.at(y);
        if (p == 0) continue;
        total += p;
        if (penalty.down_counts || whole) reward(12) += p;
        const int to = whole ? state_.yards_to_goal - y : enforced(penalty, y);
        const int at = std::clamp(to, 1, 99);
        if (penalty.automatic_first_down)
          new_series(at, p);
        else
          after(at, p, penalty.down_counts);
      }
    }
    return total;
  }

  int enforced(const Penalty& penalty, int yards) const {
    const int to_goal = state_.yards_to_goal;
    if (penalty.side == Side::defence)
      return penalty.spot_foul ? std::max(1, to_goal - yards)
                               : to_goal - std::min(yards, to_goal / 2);
    return penalty.spot_foul ? std::min(99, to_goal + yards)
                             : to_goal + std::min(yards, (100 - to_goal) / 2);
  }

  void kick(double p) {
    const double made = plan_.setting.field_goal.make(
        state_.yards_to_goal + plan_.setting.rules.kick_distance_beyond_line);
    end(DriveResult::field_goal, drive::kickoff_slot, p * made);
    end(DriveResult::missed_field_goal, plan_.endings.missed_kick[spot()], p * (1 - made));
  }

  void play(double share) {
    reward(12) += share;
    const std::size_t r = plan_.row_of[drive::state_index(state_)];
    const drive::Row& row = plan_.rows[r];
    const drive::Slice& slice = plan_.layout.of_row(r);
    end(DriveResult::touchdown, drive::kickoff_slot, share * outcomes_.touchdown[r]);
    interceptions(row.context, share);
    for (int i = 0; i < slice.count; ++i) {
      const int left = state_.yards_to_goal - (plan_.first_gain + i);
      if (left <= 0) break;
      const std::size_t at = slice.offset + static_cast<std::size_t>(i);
      end_at(DriveResult::fumble,
             plan_.endings.fumble[static_cast<std::size_t>(std::min(left, 99))],
             share * outcomes_.fumble[at]);
      const double kept = share * outcomes_.keep[at];
      if (left >= 100)
        behind_own_goal(kept);
      else if (kept > 0)
        spot_ball(left, kept);
    }
  }

  void behind_own_goal(double p) {
    double safety = 1;
    for (auto rule = plan_.setting.own_goal.rbegin(); rule != plan_.setting.own_goal.rend(); ++rule)
      if (rule->yards_to_goal.contains(state_.yards_to_goal)) safety = rule->safety;
    end(DriveResult::safety, drive::safety_slot, p * safety);
    if (safety < 1 && p > 0) after(99, p * (1 - safety), true);
  }

  void spot_ball(int left, double p) {
    const double pulled_back = left == line_ ? plan_.setting.spotted_short : 0;
    after(left, p * (1 - pulled_back), true);
    if (pulled_back > 0) after(left + 1, p * pulled_back, true);
  }

  void interceptions(std::size_t context, double share) {
    const auto& families = plan_.setting.families;
    for (std::size_t f = 0; f < families.size(); ++f) {
      const double p = share * outcomes_.interception[context * families.size() + f];
      if (p == 0) continue;
      const YardPmf& depth = *families[f].interception_depth;
      for (int d = depth.first; d <= depth.last(); ++d)
        end_at(DriveResult::interception,
               plan_.endings.interception[static_cast<std::size_t>(
                   std::clamp(state_.yards_to_goal - d, 0, 99))],
               p * depth.at(d));
    }
  }

  const drive::Plan& plan_;
  const drive::ClassTable& outcomes_;
  DriveState state_;
  int line_;
};

}  // namespace

Chain list_outcomes(const drive::Table& table, std::size_t quality,
                    const drive::FourthDownPlan& policy) {
  constexpr auto n = static_cast<Eigen::Index>(drive::state_count);
  Chain chain{Eigen::SparseMatrix<double>(n, n), Eigen::MatrixXd(n, drive::full_columns),
              Eigen::VectorXd(n)};
  std::vector<Eigen::Triplet<double>> entries;
  for (int down = 1; down <= 4; ++down)
    for (int y = 1; y <= 99; ++y)
      for (int to_go = 1; to_go <= y; ++to_go) {
        const DriveState state{down, to_go, y};
        const auto i = static_cast<Eigen::Index>(drive::state_index(state));
        Step step(table, quality, state);
        step.run(policy[drive::place_index(y - to_go, 100 - y)]);
        for (const auto& [to, p] : step.next)
          entries.emplace_back(static_cast<int>(i), static_cast<int>(to), p);
        chain.r.row(i) = step.reward;
        chain.leaves(i) = step.leaves;
      }
  chain.q.setFromTriplets(entries.begin(), entries.end());
  return chain;
}

Eigen::MatrixXd absorbing_values(const Eigen::SparseMatrix<double>& q, const Eigen::MatrixXd& r) {
  Eigen::SparseMatrix<double> identity(q.rows(), q.cols());
  identity.setIdentity();
  Eigen::SparseLU<Eigen::SparseMatrix<double>> solver;
  solver.compute(Eigen::SparseMatrix<double>(identity - q));
  return solver.solve(r);
}

}  // namespace chain
