#pragma once

#include <cstddef>
#include <string>
#include <vector>

namespace callfit {

/// Why the rows are no correlation matrix of `size` variables (square, symmetric, unit diagonal,
/// positive definite); empty when they are one.
std::string correlation_fault(const std::vector<std::vector<double>>& rows, std::size_t size);

}  // namespace callfit
