// The differences that the model was asked to stay within.
#pragma once

#include <callfit/validate/validate.hpp>

#include <vector>

namespace callfit {

/// Every target, held against the compared drives and values of a report.
std::vector<Target> targets_of(const ValidationReport& report);

}  // namespace callfit
