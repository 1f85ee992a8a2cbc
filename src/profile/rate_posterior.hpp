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

/// The family's rate with all snaps in: exact when no group is shifted, else the Beta with the mean
/// and variance of the posterior's `nodes`.
Beta rate_posterior(const Beta& prior, const std::vector<ShiftedCounts>& groups,
                    const Nodes& nodes);

/// Rate counted at the setting's own level, moved there from the levels' shifts; `expected` where
/// nothing was charted.
double counted_at_own_level(const std::vector<ShiftedCounts>& groups, double expected);

/// What is known of a cell before its mean and interval are.
struct CellQuestion {
  Nodes family;                ///< posterior of the family's rate
  double balanced_kappa = 0;   ///< of the cell around its shifted mean
  double departure_snaps = 0;  ///< what its departure is worth
};

/// Fills mean and interval from shift and departure.
void estimate_cell(const CellQuestion& question, CellEstimate& cell);

}  // namespace callfit
