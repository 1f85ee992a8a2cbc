#include <callfit/chart/agreement.hpp>

#include <algorithm>
#include <cmath>

namespace callfit {
namespace {

constexpr double z90 = 1.6448536269514722;  // 95% point of the standard normal

struct Margins {
  std::vector<double> row, column;  // shares
  double total = 0;
};

Margins margins_of(const std::vector<std::vector<double>>& table) {
  Margins margins{std::vector<double>(table.size()), std::vector<double>(table.size()), 0};
  for (std::size_t i = 0; i < table.size(); ++i)
    for (std::size_t j = 0; j < table.size(); ++j) {
      margins.row[i] += table[i][j];
      margins.column[j] += table[i][j];
      margins.total += table[i][j];
    }
  for (double& share : margins.row) share /= margins.total;
  for (double& share : margins.column) share /= margins.total;
  return margins;
}

// Fleiss, Cohen & Everitt (1969), Psychological Bulletin 72:323-327, equation for any kappa.
double variance_of(const std::vector<std::vector<double>>& table, const Margins& margins,
                   double expected, double kappa) {
  double agreed = 0;
  double crossed = 0;
  for (std::size_t i = 0; i < table.size(); ++i)
    for (std::size_t j = 0; j < table.size(); ++j) {
      const double p = table[i][j] / margins.total;
      if (i == j) {
        const double term = 1 - (margins.row[i] + margins.column[i]) * (1 - kappa);
        agreed += p * term * term;
      } else {
        const double term = margins.column[i] + margins.row[j];
        crossed += p * term * term;
      }
    }
  crossed *= (1 - kappa) * (1 - kappa);
  const double offset = kappa - expected * (1 - kappa);
  const double free = 1 - expected;
  return (agreed + crossed - offset * offset) / (free * free * margins.total);
}

}  // namespace

std::optional<Kappa> cohen_kappa(const std::vector<std::vector<double>>& table) {
  const Margins margins = margins_of(table);
  if (!(margins.total > 0)) return {};
  Kappa kappa;
  for (std::size_t i = 0; i < table.size(); ++i) {
    kappa.observed += table[i][i] / margins.total;
    kappa.expected += margins.row[i] * margins.column[i];
  }
  if (!(kappa.expected < 1)) return {};
  kappa.value = (kappa.observed - kappa.expected) / (1 - kappa.expected);
  kappa.standard_error =
      std::sqrt(std::max(0.0, variance_of(table, margins, kappa.expected, kappa.value)));
  kappa.low = std::max(-1.0, kappa.value - z90 * kappa.standard_error);
  kappa.high = std::min(1.0, kappa.value + z90 * kappa.standard_error);
  return kappa;
}

}  // namespace callfit
