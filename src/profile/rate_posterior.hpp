// Posterior of one rate: the family's, from all its snaps, and a cell's, from its own snaps and
// what the family says.
#pragma once

#include <callfit/profile/profile.hpp>
#include <callfit/stats/beta.hpp>

#include <vector>

namespace callfit {

/// Weighted snaps whose rate is the sought one moved by `shift` on the log-odds scale.
struct ShiftedCounts {
  double shift = 0;
  double made = 0;
  double of = 0;
};

/// Density proportional to theta^(a-1) (1-theta)^(b-1) prod_g p_g^made (1-p_g)^(of-made),
/// p_g = logistic(logit theta + shift_g), as a Beta with the same mode and curvature on the
/// log-odds scale. Exact when no group is shifted.
Beta near_posterior(const Beta& prior, const std::vector<ShiftedCounts>& groups);

/// The same density as points and weights.
Nodes posterior_nodes(const Beta& prior, const std::vector<ShiftedCounts>& groups);

/// The Beta with the nodes' mean and variance.
Beta matched(const Nodes& nodes);

/// The family's rate with all snaps in: exact when no group is shifted, else the Beta with the
/// posterior's mean and variance.
Beta rate_posterior(const Beta& prior, const std::vector<ShiftedCounts>& groups);

/// What a cell's estimate is made from.
struct CellQuestion {
  Beta family_prior;
  std::vector<ShiftedCounts> elsewhere;  ///< the family's snaps outside the cell
  std::vector<ShiftedCounts> inside;     ///< shifts are the levels' alone
  double shift = 0;                      ///< of the cell against the family
  double kappa = 0;
};

/// Fills counts.effective_*, mean and interval of `cell`. Every snap counts once: those elsewhere
/// through the family's rate, those inside through the cell's own.
void estimate_cell(const CellQuestion& question, CellEstimate& cell);

}  // namespace callfit
