#pragma once

#include <callfit/profile/profile.hpp>

namespace callfit {

/// Fills mean and interval of a cell anew from the family's estimate and the cell's own shift,
/// kappa and effective counts: for profiles that a person has edited. build_profile() knows the
/// snaps behind the family's rate and leaves those of the cell out of it; here the whole estimate
/// stands in.
void follow_family(const RateEstimate& family, CellEstimate& cell);

}  // namespace callfit
