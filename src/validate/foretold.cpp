#include <validate/foretold.hpp>

#include <validate/clustered.hpp>

#include <cmath>

namespace callfit {

Foretold foretold_of(const std::vector<ForetoldSeason>& seasons) {
  constexpr std::size_t fewest = 10;
  Foretold out;
  out.seasons = seasons.size();
  if (seasons.size() < fewest) return out;
  const auto count = static_cast<Eigen::Index>(seasons.size());
  Eigen::MatrixXd expected(count, 2);
  Eigen::VectorXd came(count);
  Eigen::VectorXd expected_to_miss(count);
  std::vector<std::string> men;
  for (std::size_t i = 0; i < seasons.size(); ++i) {
    const auto at = static_cast<Eigen::Index>(i);
    expected.row(at) << 1, seasons[i].expected;
    came[at] = seasons[i].came;
    expected_to_miss[at] = seasons[i].miss_sd;
    men.push_back(seasons[i].man);
  }
  const LeastSquares line = least_squares(expected, came, men);
  out.correlation = correlation_of(expected.col(1), came);
  out.slope = line.weights[1];
  out.slope_error = line.errors[1];
  const Eigen::VectorXd made = expected.col(1).array() - expected.col(1).mean();
  out.expected_spread = std::sqrt(made.squaredNorm() / static_cast<double>(count));
  const Eigen::VectorXd missed = (came.array() - came.mean()).matrix() - made;
  if (expected_to_miss.minCoeff() > 0)
    out.miss_ratio = std::sqrt(missed.squaredNorm() / expected_to_miss.squaredNorm());
  return out;
}

}  // namespace callfit
