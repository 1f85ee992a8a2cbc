// Evidence that expectation propagation has settled, before it is told quantity by quantity.
#pragma once

#include <callfit/population/posterior.hpp>
#include <population/latent.hpp>
#include <population/propagation.hpp>

#include <Eigen/Core>

namespace callfit {

struct Settled {
  Latent latent;
  Propagated propagated;
};

/// Throws Unsettled.
Settled settled(const Population& population, const Evidence& evidence);

Posterior posterior_of(const Population& population, const Evidence& evidence,
                       const Settled& known);

/// A form as it hangs on the hub.
struct Seen {
  const LinearForm* form;
  Eigen::VectorXd hub;       ///< weights of the hub
  Eigen::VectorXd with_hub;  ///< its covariance with the hub
};

Seen seen(const JointNormal& normal, const LinearForm& form);
double covariance(const JointNormal& normal, const Seen& a, const Seen& b);

/// A league of one trait, which is all that the others leave open about a quantity that follows:
/// normal with the mean and spread.
Population alone(const Population& population, std::size_t quantity, double spread);
/// What was counted of that quantity, in the order of its tallies.
Evidence alone(const Evidence& evidence, const Population& population, std::size_t quantity,
               double mean);

}  // namespace callfit
