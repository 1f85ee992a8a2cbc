// Values of every state, by quality class and averaged.
#pragma once

#include <base/vector_loops.hpp>
#include <drive/sweep.hpp>

#include <algorithm>
#include <array>
#include <memory>
#include <vector>

namespace callfit::drive {

/// Columns of a full solution: points, net points, a share per result, first downs, plays.
inline constexpr std::size_t first_share = 2;
inline constexpr std::size_t first_downs_index = first_share + drive_result_count;
inline constexpr std::size_t plays_index = first_downs_index + 1;
inline constexpr std::size_t full_columns = plays_index + 1;

struct Solution {
  std::shared_ptr<const Table> table;
  std::vector<FourthDownPlan> policy;       ///< [class]
  std::vector<std::vector<double>> values;  ///< [class][state_index * full_columns + column]
};

/// Values of {points, net} of a class at first and ten, and what it chooses on fourth down; empty
/// where the table chooses.
struct ClassPoints {
  std::array<std::array<double, 2>, field_length> first_and_ten{};  ///< [yards_to_goal][column]
  FourthDownPlan policy;
  int sweeps = 0;
};

std::vector<ClassPoints> solve_class_points(const Table& table);

/// table_policy() for every class.
std::vector<FourthDownPlan> table_policies(const Table& table);

/// What each class does on fourth down: the table's shares, or what maximises net points.
std::vector<FourthDownPlan> policies_of(const Table& table);

/// Any columns at first and ten, averaged over the classes: [yards_to_goal][column], size 100 x
/// columns, row 0 is 0.
std::vector<double> first_and_ten(const Table& table, const std::vector<FourthDownPlan>& policies,
                                  const std::vector<Column>& columns);

double class_weight(const Plan& plan, std::size_t quality);

/// for_each_class() with the given registers.
template <std::size_t K, class Lanes, class Visit>
void for_each_class_in(const Table& table, const Rewards& rewards,
                       const std::vector<FourthDownPlan>& policies, FourthDownPolicy policy,
                       const Visit& visit) {
  for (std::size_t first = 0; first < table.classes.size(); first += lane_count) {
    Sweep<K, Lanes> sweep(table, first, rewards, policies);
    if (policy == FourthDownPolicy::best) sweep.maximise_net();
    sweep.solve();
    for (std::size_t k = first; k < std::min(first + lane_count, table.classes.size()); ++k)
      visit(sweep, k, k - first);
  }
}

/// Solves K columns and calls visit(sweep, class, lane) for every class in order. With
/// FourthDownPolicy::best the policies are only where the choice starts from. The values are the
/// same whatever registers the processor has.
template <std::size_t K, class Visit>
void for_each_class(const Table& table, const Rewards& rewards,
                    const std::vector<FourthDownPlan>& policies, FourthDownPolicy policy,
                    const Visit& visit) {
  if (wide_vectors_pay())
    for_each_class_in<K, WideLanes>(table, rewards, policies, policy, visit);
  else
    for_each_class_in<K, NarrowLanes>(table, rewards, policies, policy, visit);
}

}  // namespace callfit::drive
