#include <profile/cells.hpp>

#include <algorithm>
#include <cmath>

namespace callfit {

bool differs_by_shell(const CellTable& table, std::size_t rate) {
  for (std::size_t shell = 0; shell < shell_count; ++shell)
    if (table[shell][rate]) return true;
  return false;
}

double balanced_kappa(const CellTable& table, std::size_t cell, std::size_t rate,
                      const ShellMix& mix) {
  const double own = table[cell][rate]->kappa;
  if (cell >= shell_count) return own;
  double variance = 0;
  for (std::size_t s = 0; s < shell_count; ++s) {
    const double share = s == cell ? 1 - mix[s] : mix[s];
    if (table[s][rate]) variance += share * share / (table[s][rate]->kappa + 1);
  }
  // A shell that is always met has no departure; keep its kappa finite.
  constexpr double least_variance = 1e-6;
  return 1 / std::max(variance, least_variance) - 1;
}

double departure_snaps(const RateCounts& cell, const RateCounts& family, std::size_t which,
                       const ShellMix& mix) {
  constexpr double usual_most = 0.5;  // of conditions whose mix the setting does not tell
  if (cell.effective_of <= 0) return 0;
  const double most = which < shell_count ? mix[which] : usual_most;
  const double share = std::min(cell.effective_of / family.effective_of, most);
  return cell.effective_of / std::max(1 - share, 1e-3);
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
