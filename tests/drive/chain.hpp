// A second, independent way from the compiled table to the values of a drive: every state's
// outcomes listed one by one, and the absorbing chain solved as a sparse linear system.
#pragma once

#include <callfit/drive/drive.hpp>
#include <drive/exact.hpp>

#include <Eigen/Sparse>

namespace chain {

/// (I - Q) x = r for a transition matrix Q among transient states (rows sum to at most 1), by
/// Eigen's SparseLU.
Eigen::MatrixXd absorbing_values(const Eigen::SparseMatrix<double>& q, const Eigen::MatrixXd& r);

struct Chain {
  Eigen::SparseMatrix<double> q;  ///< rows and columns are drive::state_index
  Eigen::MatrixXd r;              ///< expected reward of one step: points, net, shares, first
                                  ///< downs, plays (drive::full_columns)
  Eigen::VectorXd leaves;         ///< chance that the step ends the drive
};

/// Lists the outcomes of every state of a quality class, with the given fourth-down choices.
Chain list_outcomes(const callfit::drive::Table& table, std::size_t quality,
                    const callfit::drive::FourthDownPlan& policy);

}  // namespace chain
