// How much one column of the exact engine changes with each number of the compiled table.
#pragma once

#include <drive/visits.hpp>

#include <vector>

namespace callfit::drive {

/// Derivatives by the numbers of a ClassTable with the touchdown's probability as the remainder:
/// it shrinks as any other outcome grows. Same indices as ClassTable.
struct TableGradient {
  std::vector<double> keep, fumble, interception;
};

/// `values` are the class's {points, net} by state, `visits` its visits, both weighted alike.
TableGradient table_gradient(const Plan& plan, const FourthDownPlan& policy,
                             const std::vector<double>& values, const std::vector<double>& visits,
                             std::size_t column);

}  // namespace callfit::drive
