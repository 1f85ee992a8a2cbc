// What evidence leaves open about a quarterback: all of a population's quantities together.
#pragma once

#include <callfit/base/finding.hpp>
#include <callfit/population/evidence.hpp>
#include <callfit/population/population.hpp>

#include <cstddef>
#include <string>
#include <vector>

namespace callfit {

/// The distribution of slope u + own of one quantity, on the log-odds scale: a normal or, where it
/// is skewed, a shifted log-normal with this mean, standard deviation and skewness.
struct Marginal {
  double mean = 0;
  double sd = 0;
  double skewness = 0;

  /// The value at a standard normal score; rises with it.
  double at(double score) const;
};

/// Mean of the rate whose log-odds are `threshold` + the marginal.
double mean_rate(double threshold, const Marginal& marginal);

/// The threshold at which the mean rate of quarterbacks who differ by a normal with that spread is
/// `mean`, in (0, 1).
double threshold_of_mean(double mean, double spread);

/// A quantity's standard normal score as a sum of independent standard normals: those that all
/// quantities share, and those that the quantities of its trait share. The squares of the weights
/// add up to 1; all are 0 where nothing is open.
struct Score {
  std::vector<double> shared;  ///< one a shared normal
  std::vector<double> own;     ///< place i: of the i-th quantity of the trait, none beyond its own
};

/// Evidence that the computation cannot settle: there is no number to give.
class Unsettled : public InputError {
 public:
  explicit Unsettled(const std::string& what)
      : InputError(Finding{{}, what, "no number is given; look for counts that cannot be"}) {}
};

/// One entry a quantity of the population, for a snap of the population's own level at the place
/// that is asked about, against an average opponent or those of Evidence::coming.
struct Posterior {
  std::vector<Marginal> marginals;
  std::vector<Score> scores;
  std::size_t shared = 0;  ///< how many normals all quantities share
  int sweeps = 0;          ///< of expectation propagation until nothing moved
};

/// Correlation of two quantities' scores; 1 of one with itself.
double score_correlation(const Population& population, const Posterior& posterior, std::size_t a,
                         std::size_t b);

/// Expectation propagation (Minka 2001) with the exact moments of every tally's likelihood, then
/// the skewness that the tallies leave in each quantity, to first order (Opper, Paquet & Winther
/// 2013). A mixture counts as a binomial whose log-odds are linear in its quantities, the tangent
/// where their posterior means are. Throws Unsettled where it does not come to rest.
Posterior posterior_of(const Population& population, const Evidence& evidence);

}  // namespace callfit
