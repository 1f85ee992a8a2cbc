// The compiled outcome table of one player in a plan; both engines play from it.
#pragma once

#include <drive/plan.hpp>

#include <algorithm>
#include <memory>
#include <vector>

namespace callfit::drive {

/// Outcomes of the plays of one quality class. For row r with slice s, at y yards to the goal, a
/// play (no penalty) that starts there
///   keeps the ball after a gain of g < y yards with probability keep[s.offset + g - first_gain],
///   loses it to a fumble after such a gain with fumble[same index],
///   is intercepted with the sum over families of interception[context * families + f], at the
///   depths of that family's interceptions,
///   and scores a touchdown with touchdown[r]. These sum to 1.
struct ClassTable {
  std::vector<double> keep, fumble;
  std::vector<double> interception;
  std::vector<double> touchdown;
};

struct Table {
  std::shared_ptr<const Plan> plan;
  std::vector<ClassTable> classes;

  std::size_t families() const { return plan->setting.families.size(); }
};

/// What a pool of a table has of a row's gains from `from` to before `to`.
inline double sum_of_gains(const Plan& plan, const std::vector<double>& pool, std::size_t row,
                           int from, int to) {
  const double* start = pool.data() + plan.layout.of_row(row).offset;
  double sum = 0;
  for (int g = std::max(from, plan.first_gain); g < to; ++g) sum += start[g - plan.first_gain];
  return sum;
}

/// Of a row's plays, those that keep the ball and end behind the own goal line.
inline double behind_own_goal(const Plan& plan, const ClassTable& table, std::size_t row) {
  return sum_of_gains(plan, table.keep, row, plan.first_gain,
                      plan.rows[row].yards_to_goal - last_spot);
}
/// Those of them that are a safety.
inline double safeties(const Plan& plan, const ClassTable& table, std::size_t row) {
  return plan.setting.own_goal_safety(plan.rows[row].yards_to_goal) *
         behind_own_goal(plan, table, row);
}
/// Those that are none: the ball lies on the own 1, and the down is used up.
inline double kept_out_of_own_goal(const Plan& plan, const ClassTable& table, std::size_t row) {
  return (1 - plan.setting.own_goal_safety(plan.rows[row].yards_to_goal)) *
         behind_own_goal(plan, table, row);
}

Table compile(std::shared_ptr<const Plan> plan, const Player& player);

}  // namespace callfit::drive
