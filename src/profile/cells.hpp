// How a family's rate spreads over the cells of a condition.
#pragma once

#include <callfit/profile/profile.hpp>
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

/// Strength of a cell around its shifted mean once its condition is balanced, to first order: a
/// shell's departure from the family is its own less the average of all, so its variance is
/// (1 - w)^2 v + sum over the others of w_j^2 v_j with v = 1 / (kappa + 1). For other conditions
/// the setting's own kappa.
double balanced_kappa(const CellTable& table, std::size_t cell, std::size_t rate,
                      const ShellMix& mix);

/// What the cell's departure from its family is worth in snaps: the total and the contrast with it
/// are independent, and the contrast's variance is that of the cell's own share times
/// (1 - its share of the snaps). Shares above what the cell takes of all play say no more.
double departure_snaps(const RateCounts& cell, const RateCounts& family, std::size_t which,
                       const ShellMix& mix);

/// Posterior of a cell's rate given that its expectation is m, from `of` snaps that put it at
/// `seen` (clipped to [0, 1]).
inline Beta cell_posterior(double m, double kappa, double seen, double of) {
  const double made = of * std::clamp(seen, 0.0, 1.0);
  return {kappa * m + made, kappa * (1 - m) + of - made};
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
