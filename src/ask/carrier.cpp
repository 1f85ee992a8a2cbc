#include <ask/carrier.hpp>

#include <algorithm>
#include <cmath>
#include <numeric>

namespace callfit::ask {

Carrier::Carrier(const Worth& worth, std::size_t count) : worth_(worth) {
  std::vector<std::size_t> order(worth.net_points.size());
  std::iota(order.begin(), order.end(), std::size_t{0});
  std::sort(order.begin(), order.end(), [&worth](std::size_t a, std::size_t b) {
    return worth.net_points[a] < worth.net_points[b];
  });
  for (std::size_t k = 0; k < count; ++k)
    chosen_.push_back(order[(2 * k + 1) * order.size() / (2 * count)]);
  for (const std::size_t i : chosen_) {
    middle_[0] += worth.points[i] / static_cast<double>(count);
    middle_[1] += worth.net_points[i] / static_cast<double>(count);
  }
  for (const std::size_t i : chosen_) {
    const auto [p, n] = centred(i);
    pp_ += p * p;
    pn_ += p * n;
    nn_ += n * n;
  }
}

std::array<double, 2> Carrier::centred(std::size_t draw) const {
  return {worth_.points[draw] - middle_[0], worth_.net_points[draw] - middle_[1]};
}

Number Carrier::carried(const std::vector<double>& values) const {
  const auto count = static_cast<double>(values.size());
  const double mean = std::accumulate(values.begin(), values.end(), 0.0) / count;
  double py = 0;
  double ny = 0;
  for (std::size_t k = 0; k < values.size(); ++k) {
    const auto [p, n] = centred(chosen_[k]);
    py += p * (values[k] - mean);
    ny += n * (values[k] - mean);
  }
  // The two go together nearly always; a ridge of a millionth keeps the system solvable.
  const double ridge = 1e-6 * (pp_ + nn_) + 1e-300;
  const double determinant = (pp_ + ridge) * (nn_ + ridge) - pn_ * pn_;
  const double a = (py * (nn_ + ridge) - ny * pn_) / determinant;
  const double b = (ny * (pp_ + ridge) - py * pn_) / determinant;
  const auto line = [&](std::size_t i) {
    const auto [p, n] = centred(i);
    return mean + a * p + b * n;
  };
  constexpr double fitted = 3;
  const double stretch = std::sqrt(count / (count - fitted));
  std::vector<double> draws(worth_.points.size());
  for (std::size_t i = 0; i < draws.size(); ++i) {
    const std::size_t k = i % values.size();
    draws[i] = line(i) + stretch * (values[k] - line(chosen_[k]));
  }
  return number_of(draws);
}

}  // namespace callfit::ask
