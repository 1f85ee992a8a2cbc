// How a family's rate spreads over the cells of a condition.
#pragma once

#include <callfit/profile/player.hpp>
#include <callfit/setting/setting.hpp>
#include <callfit/stats/beta.hpp>
#include <callfit/stats/logit.hpp>

#include <algorithm>
#include <array>
#include <cstddef>

namespace callfit {

using ShellMix = std::array<double, shell_count>;

/// Whether the setting tells the shells apart for this rate.
bool differs_by_shell(const CellTable& table, std::size_t rate);

/// Moves the rate of the three shells together on the log-odds scale until they average, over the
/// mix, to the family's rate: a family's rate is what is counted over all shells, so a player who
/// does worse against one does better against the others.
void balance_shells(PlayerFamily& family, std::size_t rate, const ShellMix& mix);

/// Posterior of a cell's rate whose expectation given the family's rate is m, from weighted counts
/// at the setting's level. Counts moved from an easier level can fall a little below zero where
/// hardly anything was made; the Beta's parameters may not.
inline Beta cell_posterior(double m, double kappa, double made, double of) {
  constexpr double smallest = 1e-3;
  return {std::max(kappa * m + made, smallest), std::max(kappa * (1 - m) + of - made, smallest)};
}

/// Fills family.cell from family.rate: `value(cell, rate, known, m)` gives the rate in a cell whose
/// expectation given the family's rate is m; cells the setting does not know keep that rate.
template <class Value>
void lay_out_cells(PlayerFamily& family, const CellTable& table, const ShellMix& mix,
                   const Value& value) {
  family.cell.fill(family.rate);
  for (std::size_t c = 0; c < cell_count; ++c)
    for (std::size_t r = 0; r < rate_count; ++r)
      if (table[c][r])
        family.cell[c][r] = value(c, r, *table[c][r], shifted(family.rate[r], table[c][r]->shift));
  for (std::size_t r = 0; r < rate_count; ++r)
    if (differs_by_shell(table, r)) balance_shells(family, r, mix);
}

}  // namespace callfit
