#include <profile/shell_shifts.hpp>

#include <callfit/stats/logit.hpp>

namespace callfit {

std::array<double, shell_slots> shell_shifts(const CellTable& table, std::size_t r, double mean,
                                             const ShellMix& mix) {
  std::array<double, shell_slots> shifts{};
  if (!differs_by_shell(table, r)) return shifts;
  PlayerFamily average;
  average.rate.fill(mean);
  average.cell.fill(average.rate);
  for (std::size_t s = 0; s < shell_count; ++s)
    if (table[s][r]) average.cell[s][r] = shifted(mean, table[s][r]->shift);
  balance_shells(average, r, mix);
  for (std::size_t s = 0; s < shell_count; ++s) shifts[s] = logit(average.cell[s][r]) - logit(mean);
  return shifts;
}

}  // namespace callfit
