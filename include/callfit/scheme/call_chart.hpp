// A scheme out of what a coordinator called.
#pragma once

#include <callfit/chart/snap.hpp>
#include <callfit/scheme/scheme.hpp>

#include <vector>

namespace callfit {

/// How many snaps the base's own mix of a situation counts for there; assumed: about the size at
/// which a share of one in five has a standard error of 9 points.
inline constexpr double usual_smoothing = 20;

/// `base` with its call shares replaced by those of the charted calls. In a situation met n times
/// the share of a family called k times is (k + smoothing * m) / (n + smoothing), m its share in
/// the same situation of the base: the posterior mean of a Dirichlet-multinomial with that mix as
/// prior (Gelman and others, Bayesian Data Analysis, section 3.4). What the base never calls in a
/// situation and was not charted there gets 0. Replayed downs count as calls where their family is
/// charted. Families, situations, demands and correlations are the base's; shares by shell are
/// dropped. Throws InputError for a family that the base does not know and for charts without
/// calls.
Scheme scheme_from_calls(const Scheme& base, const std::vector<Chart>& charts,
                         double smoothing = usual_smoothing);

}  // namespace callfit
