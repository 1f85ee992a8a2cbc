#include <callfit/profile/edited_cell.hpp>
#include <callfit/stats/beta.hpp>
#include <callfit/stats/logit.hpp>
#include <profile/cells.hpp>

namespace callfit {

void follow_family(const RateEstimate& family, CellEstimate& cell) {
  constexpr std::size_t node_count = 24;
  const Nodes nodes = beta_nodes(Beta::of_mean(family.mean, family.strength), node_count);
  double first = 0;
  double second = 0;
  double within = 0;
  for (std::size_t i = 0; i < nodes.size(); ++i) {
    const Beta cell_rate = cell_posterior(shifted(nodes.at[i], cell.shift), cell.kappa,
                                          cell.counts.effective_made, cell.counts.effective_of);
    const double m = cell_rate.mean();
    first += nodes.weight[i] * m;
    second += nodes.weight[i] * m * m;
    within += nodes.weight[i] * m * (1 - m) / (cell_rate.strength() + 1);
  }
  cell.mean = first;
  cell.interval = interval90(Beta::of_moments(first, second - first * first + within));
}

}  // namespace callfit
