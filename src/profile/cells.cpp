#include <profile/cells.hpp>

#include <cmath>

namespace callfit {

bool differs_by_shell(const CellTable& table, std::size_t rate) {
  for (std::size_t shell = 0; shell < shell_count; ++shell)
    if (table[shell][rate]) return true;
  return false;
}

void balance_shells(PlayerFamily& family, std::size_t rate, const ShellMix& mix) {
  constexpr int most_steps = 50;
  constexpr double close_enough = 1e-13;
  const double wanted = family.rate[rate];
  if (wanted <= 0 || wanted >= 1) return;
  std::array<double, shell_count> log_odds{};
  for (std::size_t s = 0; s < shell_count; ++s) log_odds[s] = logit(family.cell[s][rate]);

  // Newton on logit(average) - logit(wanted), which is nearly linear in the common move.
  double move = 0;
  for (int step = 0; step < most_steps; ++step) {
    double average = 0;
    double slope = 0;
    for (std::size_t s = 0; s < shell_count; ++s) {
      const double p = logistic(log_odds[s] + move);
      average += mix[s] * p;
      slope += mix[s] * p * (1 - p);
    }
    const double off = logit(average) - logit(wanted);
    if (std::abs(off) < close_enough) break;
    move -= off * average * (1 - average) / slope;
  }
  for (std::size_t s = 0; s < shell_count; ++s) family.cell[s][rate] = logistic(log_odds[s] + move);
}

}  // namespace callfit
