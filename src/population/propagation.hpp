// The normal that expectation propagation puts in the place of a latent vector's posterior.
#pragma once

#include "population/latent.hpp"

#include <Eigen/Core>

#include <vector>

namespace callfit {

/// The approximating normal of one block, given the hub h: mean `alone` - `on_hub` h and covariance
/// `covariance`.
struct Block {
  Eigen::VectorXd alone;
  Eigen::MatrixXd on_hub;
  Eigen::MatrixXd covariance;
};

struct JointNormal {
  Eigen::VectorXd hub_mean;
  Eigen::MatrixXd hub_covariance;
  std::vector<Block> blocks;

  /// What a form's value hangs on the hub by, the block's part taken in.
  Eigen::VectorXd hub_weights(const LinearForm& form) const;
  /// What the block alone adds to the form's mean, its offset apart.
  double own_mean(const LinearForm& form) const;
  /// Covariance of two forms of one trait given the hub.
  double own_covariance(const LinearForm& a, const LinearForm& b) const;
};

struct Propagated {
  JointNormal normal;
  std::vector<double> row_variance;
  std::vector<double> third_cumulant;  ///< of each row's form under its own exact likelihood
  int sweeps = 0;
};

/// Throws Unsettled.
Propagated propagate(const Latent& latent);

}  // namespace callfit
