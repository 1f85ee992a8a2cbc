// How much points and net points change with each number of a compiled table.
#pragma once

#include <drive/visits.hpp>

#include <array>
#include <vector>

namespace callfit::drive {

/// A number for points, one for net points.
using Pair = std::array<double, 2>;

/// Derivatives by the numbers of one class's table, with the touchdown's probability as the
/// remainder: it shrinks as any other outcome grows. Laid out by Plan::every_call.
struct TableGradient {
  /// By the probability of a gain: kept (points, net), fumbled (points, net).
  std::vector<std::array<double, 4>> gains;
  std::vector<Pair> interception;  ///< [context * families + family]
};

/// `values` are the class's, [state_index * 2 + column]; derivatives carry its weight.
TableGradient table_gradient(const Plan& plan, const FourthDownPlan& policy,
                             const std::vector<double>& values, const std::vector<double>& visits,
                             double weight);

TableGradient scaled(TableGradient by, double factor);

/// The table's numbers times their derivatives, bad snaps left out.
Pair value_in(const Plan& plan, const ClassTable& table, const TableGradient& by);

}  // namespace callfit::drive
