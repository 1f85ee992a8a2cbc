// Who fits whom: any number of profiles in any number of schemes.
#pragma once

#include <callfit/ask/comparison.hpp>

#include <vector>

namespace callfit {

/// Chance that each entry has the most net points, over paired draws; sums to 1. Ties share.
std::vector<double> chances_of_being_best(const std::vector<const Worth*>& entries);

}  // namespace callfit
