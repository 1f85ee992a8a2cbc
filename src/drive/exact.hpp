// Values of every state, by quality class and averaged.
#pragma once

#include <base/vector_loops.hpp>
#include <drive/sweep.hpp>

#include <algorithm>
#include <array>
#include <memory>
#include <stdexcept>
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
  FirstDowns<2> first_and_ten;
  FourthDownPlan policy;
  int sweeps = 0;
};

std::vector<ClassPoints> solve_class_points(const Table& table, const SolveOptions& options = {});

/// table_policy() for every class.
std::vector<FourthDownPlan> table_policies(const Table& table);

/// What each class does on fourth down: the table's shares, or what maximises net points.
std::vector<FourthDownPlan> policies_of(const Table& table);

/// A column at first and ten, averaged over the classes: by yards_to_goal, size 100, index 0 is 0.
std::vector<double> first_and_ten(const Table& table, const std::vector<FourthDownPlan>& policies,
                                  const Column& column);

double class_weight(const Plan& plan, std::size_t quality);

/// Values of a solved class at first and ten.
template <std::size_t K, class Lanes>
FirstDowns<K> first_downs_of(const Sweep<K, Lanes>& sweep, std::size_t lane) {
  FirstDowns<K> out(field_length);
  for (int y = 1; y <= last_spot; ++y)
    for (std::size_t c = 0; c < K; ++c)
      out[static_cast<std::size_t>(y)][c] = sweep.value(state_index(first_down_at(y)), c, lane);
  return out;
}

/// How values are come by: from nothing or from like ones, by class.
template <std::size_t K>
struct Approach {
  double tolerance = full_tolerance;
  const std::vector<FirstDowns<K>>* from = nullptr;
  int most_to_go = last_spot;
};

/// for_each_class() with the given registers.
template <std::size_t K, class Lanes, class Visit>
void for_each_class_in(const Table& table, const Rewards& rewards,
                       const std::vector<FourthDownPlan>& policies, FourthDownPolicy policy,
                       const Visit& visit, const Approach<K>& approach = {}) {
  for (std::size_t first = 0; first < table.classes.size(); first += lane_count) {
    Sweep<K, Lanes> sweep(table, first, rewards, policies);
    if (policy == FourthDownPolicy::best) sweep.maximise_net();
    if (approach.from != nullptr) sweep.start_from(*approach.from, first);
    sweep.look_back(approach.most_to_go);
    sweep.solve(approach.tolerance);
    for (std::size_t k = first; k < std::min(first + lane_count, table.classes.size()); ++k)
      visit(sweep, k, k - first);
  }
}

/// Solves K columns and calls visit(sweep, class, lane) for every class in order. With
/// FourthDownPolicy::best the policies are only where the choice starts from. The values are the
/// same whatever registers the processor has. Throws std::invalid_argument where the approach is
/// from other classes.
template <std::size_t K, class Visit>
void for_each_class(const Table& table, const Rewards& rewards,
                    const std::vector<FourthDownPlan>& policies, FourthDownPolicy policy,
                    const Visit& visit, const Approach<K>& approach = {}) {
  if (approach.from != nullptr && approach.from->size() != table.classes.size())
    throw std::invalid_argument("the near values have other quality classes");
  if (wide_vectors_pay())
    for_each_class_in<K, WideLanes>(table, rewards, policies, policy, visit, approach);
  else
    for_each_class_in<K, NarrowLanes>(table, rewards, policies, policy, visit, approach);
}

}  // namespace callfit::drive
