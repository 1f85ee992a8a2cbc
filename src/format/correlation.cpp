#include <format/correlation.hpp>

#include <Eigen/Cholesky>

namespace callfit {

std::string correlation_fault(const std::vector<std::vector<double>>& rows, std::size_t size) {
  const std::string shape = std::to_string(size) + " x " + std::to_string(size);
  if (rows.size() != size)
    return "the matrix has " + std::to_string(rows.size()) +
           " rows where the family's demands make it " + shape;
  const auto n = static_cast<Eigen::Index>(size);
  Eigen::MatrixXd matrix(n, n);
  for (std::size_t i = 0; i < size; ++i) {
    if (rows[i].size() != size)
      return "row " + std::to_string(i + 1) + " has " + std::to_string(rows[i].size()) +
             " entries where the family's demands make it " + shape;
    for (std::size_t j = 0; j < size; ++j)
      matrix(static_cast<Eigen::Index>(i), static_cast<Eigen::Index>(j)) = rows[i][j];
  }
  if (!matrix.diagonal().isOnes(1e-12)) return "the diagonal is not all 1";
  if (!matrix.isApprox(matrix.transpose(), 1e-12)) return "the matrix is not symmetric";
  if (matrix.llt().info() != Eigen::Success) return "the matrix is not positive definite";
  return {};
}

}  // namespace callfit
