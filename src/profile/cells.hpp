// How a family's rate spreads over the cells of a condition.
#pragma once

#include <callfit/profile/profile.hpp>
#include <callfit/stats/beta.hpp>
#include <callfit/stats/logit.hpp>

#include <array>
#include <cmath>
#include <cstddef>

namespace callfit {

using ShellMix = std::array<double, shell_count>;

/// Whether the setting tells the shells apart for this rate.
bool differs_by_shell(const CellTable& table, std::size_t rate);

/// Moves the rates of the three shells together on the log-odds scale until they average, over the
/// mix, to the family's rate: a family's rate is what is counted over all shells, so a player who
/// does worse against one does better against the others. `shells` point to `count` rates each,
/// `family` to the rates that they are to average to. Where nothing can be moved (all shells, or
/// the family, at 0 or 1) the shells stay as near as they come.
void balance_shells(const double* family, const std::array<double*, shell_count>& shells,
                    std::size_t count, const ShellMix& mix);
void balance_shells(PlayerFamily& family, std::size_t rate, const ShellMix& mix);

/// What the cell's departure from its family is worth in snaps: the total and the contrast with it
/// are independent, and the contrast's variance is that of the cell's own share times
/// (1 - its share of the snaps). Shares above one half say no more.
double departure_snaps(const RateCounts& cell, const RateCounts& family);

/// What a cell's rate is expected to be given its family's rate theta, and what its own snaps say.
class CellGivenFamily {
 public:
  CellGivenFamily(double shift, double departure)
      : shift_(std::exp(shift)), departure_(std::exp(departure)) {}

  /// Beta(kappa m + of q, kappa (1 - m) + of (1 - q)), m = logistic(logit theta + shift),
  /// q = logistic(logit theta + departure).
  Beta posterior(double theta, double kappa, double of) const {
    const double by_shift = kappa / (1 - theta + theta * shift_);
    const double by_snaps = of / (1 - theta + theta * departure_);
    return {theta * (by_shift * shift_ + by_snaps * departure_),
            (1 - theta) * (by_shift + by_snaps)};
  }

 private:
  double shift_, departure_;  // as factors of odds
};

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
