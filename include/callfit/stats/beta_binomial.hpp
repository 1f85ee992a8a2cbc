// Mean and spread of a population of shares, from counts of several of its members.
#pragma once

#include <callfit/stats/interval.hpp>

#include <vector>

namespace callfit {

/// `made` of `of` trials of one member; weighted counts need not be whole.
struct MemberCounts {
  double made = 0;
  double of = 0;
};

/// Log marginal likelihood of Beta(a, b) members, binomial coefficients left out:
/// sum log B(a + made, b + of - made) - log B(a, b).
double beta_binomial_log_likelihood(const std::vector<MemberCounts>& members, double a, double b);

/// Largest marginal likelihood over mean and spread (type II maximum likelihood), with 90% profile
/// likelihood intervals: all values within 1.353 (half the 90% point of chi-square with one degree
/// of freedom, Wilks 1938) of the largest log-likelihood.
struct BetaBinomialFit {
  double mean = 0;    ///< in (0, 1)
  double spread = 0;  ///< standard deviation between members; 0: they look alike
  Interval mean90;
  Interval spread90;  ///< low = 0 when the counts do not tell the members apart
  double log_likelihood = 0;

  bool told_apart() const { return spread90.low > 0; }
};

/// Needs two members with trials, and trials of both outcomes; throws std::invalid_argument else.
BetaBinomialFit fit_beta_binomial(const std::vector<MemberCounts>& members);

}  // namespace callfit
