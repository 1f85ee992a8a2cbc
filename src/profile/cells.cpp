#include <base/vector_loops.hpp>
#include <profile/cells.hpp>

#include <algorithm>
#include <cmath>

namespace callfit {
namespace {

static_assert(shell_count == 3);  // balance_shells() names the shells one by one

constexpr std::size_t block_size = 256;
constexpr double close_enough = 1e-13;  // of the family's rate
using Block = std::array<double, block_size>;
using Rates = std::array<double, shell_count>;

// A rate whose odds are multiplied by `factor`.
inline double moved(double rate, double factor) {
  return rate * factor / (1 - rate + rate * factor);
}

double average_moved(const Rates& rates, double factor, const ShellMix& mix) {
  double average = 0;
  for (std::size_t s = 0; s < shell_count; ++s) average += mix[s] * moved(rates[s], factor);
  return average;
}

// The factor of the shells' odds by which they average to the family's rate, for many draws.
// Newton on logit(average) - logit(family) over the logarithm of the factor, which is nearly
// linear; factors are powers of odds, taken by their Pade approximation of second order, so that
// a step costs divisions only. The turns of the outer loop go side by side.
CALLFIT_WIDE_VECTORS
void move_factors(const double* family, std::array<const double*, shell_count> shells,
                  std::size_t count, const ShellMix& mix, Block& factor) {
  constexpr int steps = 5;
  const double* first = shells[0];
  const double* second = shells[1];
  const double* third = shells[2];
  CALLFIT_INDEPENDENT_TURNS
  for (std::size_t i = 0; i < count; ++i) {
    double by = 1;
    for (int step = 0; step < steps; ++step) {
      const double p = moved(first[i], by);
      const double q = moved(second[i], by);
      const double r = moved(third[i], by);
      const double made = mix[0] * p + mix[1] * q + mix[2] * r;
      const double missed = mix[0] * (1 - p) + mix[1] * (1 - q) + mix[2] * (1 - r);
      const double slope = mix[0] * p * (1 - p) + mix[1] * q * (1 - q) + mix[2] * r * (1 - r);
      // by *= (wanted odds / odds)^k, k = made missed / slope.
      const double k = made * missed;
      const double wanted = family[i] * missed;
      const double now = (1 - family[i]) * made;
      by *= ((slope + k) * wanted + (slope - k) * now) / ((slope - k) * wanted + (slope + k) * now);
    }
    factor[i] = by;
  }
}

// The same factor for shells so far apart that those steps do not get there.
double bracketed_factor(const Rates& rates, double wanted, const ShellMix& mix) {
  constexpr double farthest = 200;  // in log-odds
  double low = -farthest;
  double high = farthest;
  for (int step = 0; step < 100; ++step) {
    const double middle = (low + high) / 2;
    (average_moved(rates, std::exp(middle), mix) < wanted ? low : high) = middle;
  }
  return std::exp((low + high) / 2);
}

}  // namespace

bool differs_by_shell(const CellTable& table, std::size_t rate) {
  for (std::size_t shell = 0; shell < shell_count; ++shell)
    if (table[shell][rate]) return true;
  return false;
}

double departure_snaps(const RateCounts& cell, const RateCounts& family) {
  constexpr double most = 0.5;
  if (cell.effective_of <= 0) return 0;
  return cell.effective_of / (1 - std::min(cell.effective_of / family.effective_of, most));
}

void balance_shells(const double* family, const std::array<double*, shell_count>& shells,
                    std::size_t count, const ShellMix& mix) {
  for (std::size_t from = 0; from < count; from += block_size) {
    const std::size_t size = std::min(block_size, count - from);
    Block factor;
    move_factors(family + from, {shells[0] + from, shells[1] + from, shells[2] + from}, size, mix,
                 factor);
    for (std::size_t i = 0; i < size; ++i) {
      const Rates rates{shells[0][from + i], shells[1][from + i], shells[2][from + i]};
      const double wanted = family[from + i];
      // A factor that is no number is not close either.
      if (!(std::abs(average_moved(rates, factor[i], mix) - wanted) <= close_enough * wanted))
        factor[i] = bracketed_factor(rates, wanted, mix);
      for (std::size_t s = 0; s < shell_count; ++s)
        shells[s][from + i] = moved(rates[s], factor[i]);
    }
  }
}

void balance_shells(PlayerFamily& family, std::size_t rate, const ShellMix& mix) {
  balance_shells(&family.rate[rate],
                 {&family.cell[0][rate], &family.cell[1][rate], &family.cell[2][rate]}, 1, mix);
}

}  // namespace callfit
