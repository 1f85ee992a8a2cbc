// How a posterior answers to its counts: what one count more of each category would move.
#pragma once

#include <callfit/population/evidence.hpp>
#include <callfit/population/population.hpp>
#include <callfit/population/posterior.hpp>

#include <vector>

namespace callfit {

/// Of one tally. The posterior mean of anything that hangs on the quantities moves, by a count of
/// category c, by its posterior covariance with that count's log-likelihood. Of F(x), x normal,
/// that is, with C the covariances and the sums over quantities,
///     slope_c sum_q E[dF/dx_q] C_q  +  1/2 bend_c sum_qr E[d2F/dx_q dx_r] C_q C_r,
/// the first two terms of its series in Hermite polynomials (Mehler 1866, from memory).
struct TallyResponse {
  std::vector<double> covariance;  ///< of the tally's log-odds with each quantity's
  std::vector<double> slope;       ///< by category: mean derivative of a count's log-likelihood
  std::vector<double> bend;        ///< by category: mean second derivative
};

struct Response {
  Posterior posterior;
  std::vector<TallyResponse> tallies;   ///< as Evidence::tallies
  std::vector<TallyResponse> mixtures;  ///< as Evidence::mixtures; categories missed and made
};

/// Throws Unsettled as posterior_of() does. What is counted of a quantity that follows moves that
/// one alone; what others move of it shrinks as far as it is settled by its own counts.
Response response_of(const Population& population, const Evidence& evidence);

/// The evidence with every count times `weight`, above 0: season totals too.
Evidence weighed(Evidence evidence, double weight);

}  // namespace callfit
