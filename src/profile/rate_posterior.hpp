// Posterior of one rate: the family's, from all its snaps, and a cell's, from its own snaps and
// what the family says.
#pragma once

#include <callfit/profile/profile.hpp>
#include <callfit/stats/beta.hpp>

#include <array>
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

/// A cell's snaps at one level, and the rate that was counted there over all of the family's snaps.
struct CellCounts {
  double made = 0;
  double of = 0;
  double family = 0;  ///< in [0, 1]
};

/// Log-odds by which the cell's rate departs from what was counted of the family at the same level,
/// by maximum likelihood over the levels: sum of logistic(logit family + departure) over its snaps
/// = what they made. 0 without snaps, and where every level's rate is the family's; at most
/// -logit(smallest_share) either way where all or none of the snaps made it.
double departure_of(const std::vector<CellCounts>& levels);

}  // namespace callfit
