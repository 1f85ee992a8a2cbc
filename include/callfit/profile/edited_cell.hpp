// Cells of a profile that a person has edited.
#pragma once

#include <callfit/profile/profile.hpp>
#include <callfit/setting/setting.hpp>

namespace callfit {

/// Fills mean and interval of a cell anew from the family's estimate and the cell's own shift,
/// kappa, departure and counts, as build_profile() does.
void follow_family(const RateEstimate& family, const Setting& setting,
                   const FamilyPopulation& population, CellEstimate& cell);

}  // namespace callfit
