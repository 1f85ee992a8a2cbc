// Agreement of two orders.
#pragma once

#include <vector>

namespace callfit {

/// Ranks from 1 up; ties share the mean of their places.
std::vector<double> ranks_of(const std::vector<double>& values);

/// Spearman's rank correlation (1904): Pearson's correlation of the ranks, in [-1, 1]; 0 where one
/// side does not vary. Both of one length, at least 2, else std::invalid_argument.
double spearman(const std::vector<double>& a, const std::vector<double>& b);

}  // namespace callfit
