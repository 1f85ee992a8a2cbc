// Means and variances of cells' rates as they are drawn, by quadrature.
#pragma once

#include <profile/draw_source.hpp>

#include <array>

namespace callfit {

struct Moments {
  double mean = 0;
  double variance = 0;
};

/// Of a cell that is no shell, with the family's rate integrated out.
Moments cell_moments(const Beta& family, const CellSource& cell);

/// Of the three shells, drawn given the family's rate and then balanced to it over the mix; a
/// shell that the source does not tell of starts at the family's rate.
std::array<Moments, shell_count> shell_moments(const FamilySource& family, std::size_t rate,
                                               const ShellMix& mix);

}  // namespace callfit
