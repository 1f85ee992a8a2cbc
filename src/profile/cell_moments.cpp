#include <profile/cell_moments.hpp>

namespace callfit {
namespace {

constexpr std::size_t family_points = 24;
constexpr std::size_t points_with_shells = 16;
constexpr std::size_t shell_points = 8;

Nodes shell_nodes(const std::optional<CellSource>& shell, double theta) {
  if (!shell) return {{theta}, {1}};
  const CellGivenFamily given(shell->shift, shell->departure);
  return beta_nodes(given.posterior(theta, shell->kappa, shell->of), shell_points);
}

// Every combination of the shells' nodes at one rate of the family, balanced.
class ShellGrid {
 public:
  ShellGrid(const std::array<Nodes, shell_count>& nodes, double theta, const ShellMix& mix) {
    for (std::size_t i = 0; i < nodes[0].size(); ++i)
      for (std::size_t j = 0; j < nodes[1].size(); ++j)
        for (std::size_t k = 0; k < nodes[2].size(); ++k) {
          weight_.push_back(nodes[0].weight[i] * nodes[1].weight[j] * nodes[2].weight[k]);
          rate_[0].push_back(nodes[0].at[i]);
          rate_[1].push_back(nodes[1].at[j]);
          rate_[2].push_back(nodes[2].at[k]);
        }
    const std::vector<double> family(weight_.size(), theta);
    balance_shells(family.data(), {rate_[0].data(), rate_[1].data(), rate_[2].data()},
                   family.size(), mix);
  }

  void add_powers(double weight, std::array<Moments, shell_count>& sums) const {
    for (std::size_t s = 0; s < shell_count; ++s)
      for (std::size_t i = 0; i < weight_.size(); ++i) {
        const double part = weight * weight_[i] * rate_[s][i];
        sums[s].mean += part;
        sums[s].variance += part * rate_[s][i];
      }
  }

 private:
  std::vector<double> weight_;
  std::array<std::vector<double>, shell_count> rate_;
};

}  // namespace

Moments cell_moments(const Beta& family, const CellSource& cell) {
  const CellGivenFamily given(cell.shift, cell.departure);
  const Nodes nodes = beta_nodes(family, family_points);
  double first = 0;
  double second = 0;
  double within = 0;
  for (std::size_t i = 0; i < nodes.size(); ++i) {
    const Beta posterior = given.posterior(nodes.at[i], cell.kappa, cell.of);
    first += nodes.weight[i] * posterior.mean();
    second += nodes.weight[i] * posterior.mean() * posterior.mean();
    within += nodes.weight[i] * posterior.variance();
  }
  return {first, second - first * first + within};
}

std::array<Moments, shell_count> shell_moments(const FamilySource& family, std::size_t rate,
                                               const ShellMix& mix) {
  std::array<Moments, shell_count> moments{};
  const Nodes thetas = beta_nodes(*family.rates[rate], points_with_shells);
  for (std::size_t i = 0; i < thetas.size(); ++i) {
    std::array<Nodes, shell_count> nodes;
    for (std::size_t s = 0; s < shell_count; ++s)
      nodes[s] = shell_nodes(family.cells[s][rate], thetas.at[i]);
    ShellGrid(nodes, thetas.at[i], mix).add_powers(thetas.weight[i], moments);
  }
  for (Moments& shell : moments) shell.variance -= shell.mean * shell.mean;
  return moments;
}

}  // namespace callfit
