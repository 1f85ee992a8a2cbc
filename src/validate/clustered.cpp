#include <validate/clustered.hpp>

#include <Eigen/Cholesky>

#include <algorithm>
#include <cmath>
#include <map>

namespace callfit {

LeastSquares least_squares(const Eigen::MatrixXd& cases, const Eigen::VectorXd& seen,
                           const std::vector<std::string>& cluster) {
  const Eigen::MatrixXd bread = (cases.transpose() * cases)
                                    .ldlt()
                                    .solve(Eigen::MatrixXd::Identity(cases.cols(), cases.cols()));
  LeastSquares out;
  out.weights = bread * (cases.transpose() * seen);
  const Eigen::VectorXd fitted = cases * out.weights;
  std::map<std::string, Eigen::VectorXd> scores;
  for (Eigen::Index i = 0; i < cases.rows(); ++i) {
    const auto [sum, fresh] = scores.try_emplace(cluster[static_cast<std::size_t>(i)],
                                                 Eigen::VectorXd::Zero(cases.cols()));
    sum->second += cases.row(i).transpose() * (seen[i] - fitted[i]);
  }
  Eigen::MatrixXd meat = Eigen::MatrixXd::Zero(cases.cols(), cases.cols());
  for (const auto& [name, score] : scores) meat += score * score.transpose();
  const auto clusters = static_cast<double>(scores.size());
  if (clusters > 1) meat *= clusters / (clusters - 1);
  out.errors = (bread * meat * bread).diagonal().cwiseSqrt();
  out.correlation = correlation_of(fitted, seen);
  return out;
}

double correlation_of(const Eigen::VectorXd& a, const Eigen::VectorXd& b) {
  const Eigen::VectorXd x = a.array() - a.mean();
  const Eigen::VectorXd y = b.array() - b.mean();
  const double scale = x.norm() * y.norm();
  return scale > 0 ? x.dot(y) / scale : 0.0;
}

double error_of_mean(const std::vector<PairValue>& pairs) {
  if (pairs.size() < 2) return 0;
  double mean = 0;
  for (const PairValue& pair : pairs) mean += pair.value / static_cast<double>(pairs.size());
  std::map<std::string, double> of_man;
  std::map<std::pair<std::string, std::string>, double> of_pair;
  for (const PairValue& pair : pairs) {
    const double off = pair.value - mean;
    of_man[pair.men.first] += off;
    of_man[pair.men.second] += off;
    of_pair[std::minmax(pair.men.first, pair.men.second)] += off;
  }
  double squares = 0;
  for (const auto& [man, sum] : of_man) squares += sum * sum;
  for (const auto& [men, sum] : of_pair) squares -= sum * sum;
  return std::sqrt(std::max(squares, 0.0)) / static_cast<double>(pairs.size());
}

}  // namespace callfit
