#include <ask/carrier.hpp>

#include <algorithm>
#include <cmath>
#include <numeric>

namespace callfit::ask {

Carrier::Carrier(const Worth& worth, std::size_t count,
                 const std::vector<std::vector<double>>& beside)
    : told_(worth.net_points.size(), 2 + beside.size()) {
  std::vector<std::size_t> order(worth.net_points.size());
  std::iota(order.begin(), order.end(), std::size_t{0});
  std::sort(order.begin(), order.end(), [&worth](std::size_t a, std::size_t b) {
    return worth.net_points[a] < worth.net_points[b];
  });
  for (std::size_t k = 0; k < count; ++k)
    chosen_.push_back(order[(2 * k + 1) * order.size() / (2 * count)]);
  take(0, worth.points);
  take(1, worth.net_points);
  for (std::size_t b = 0; b < beside.size(); ++b) take(static_cast<Eigen::Index>(2 + b), beside[b]);
  told_chosen_ = told_(chosen_, Eigen::all);
  // Points and net points go together nearly always; a ridge keeps the system solvable.
  constexpr double ridge = 1e-6;
  Eigen::MatrixXd normal = told_chosen_.transpose() * told_chosen_;
  normal.diagonal().array() += ridge * static_cast<double>(count);
  normal_equations_.compute(normal);
}

void Carrier::take(Eigen::Index place, const std::vector<double>& column) {
  const auto count = static_cast<double>(chosen_.size());
  double mean = 0;
  for (const std::size_t i : chosen_) mean += column[i] / count;
  double variance = 0;
  for (const std::size_t i : chosen_) variance += (column[i] - mean) * (column[i] - mean) / count;
  const double size = std::sqrt(variance);
  const double rounding = 1e-12 * std::abs(mean);
  const double scale = size > rounding ? 1 / size : 0;
  for (std::size_t i = 0; i < column.size(); ++i)
    told_(static_cast<Eigen::Index>(i), place) = (column[i] - mean) * scale;
}

Number Carrier::carried(const std::vector<double>& values) const {
  const auto count = static_cast<Eigen::Index>(values.size());
  const Eigen::Map<const Eigen::VectorXd> known(values.data(), count);
  const double mean = known.mean();
  const Eigen::VectorXd slopes =
      normal_equations_.solve(told_chosen_.transpose() * (known.array() - mean).matrix());
  const auto fitted = static_cast<double>(1 + slopes.size());
  const double stretch =
      std::sqrt(static_cast<double>(count) / (static_cast<double>(count) - fitted));
  const Eigen::VectorXd departures =
      stretch * ((known.array() - mean).matrix() - told_chosen_ * slopes);
  Eigen::VectorXd line = told_ * slopes;
  line.array() += mean;
  std::vector<double> draws(line.begin(), line.end());
  for (std::size_t i = 0; i < draws.size(); ++i)
    draws[i] += departures(static_cast<Eigen::Index>(i) % count);
  return number_of(draws);
}

}  // namespace callfit::ask
