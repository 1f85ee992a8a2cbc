// Cells of a profile whose family a person has edited.
#pragma once

#include <callfit/profile/profile.hpp>

#include <array>

namespace callfit {

/// Fills mean and interval of every cell from the family's estimates and the cells' own shift,
/// kappa, departure and counts, as build_profile() does: those of the rates as they are drawn.
/// `mix` as of shell_mix().
void estimate_cells(FamilyProfile& family, const std::array<double, shell_count>& mix);

}  // namespace callfit
