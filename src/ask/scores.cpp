#include <ask/scores.hpp>

#include <Eigen/Core>
#include <Eigen/Eigenvalues>
#include <Eigen/QR>

#include <algorithm>
#include <cmath>
#include <map>
#include <numeric>

namespace callfit::ask {

double variance_over(std::span<const double> column) {
  const auto n = static_cast<double>(column.size());
  const double mean = std::accumulate(column.begin(), column.end(), 0.0) / n;
  return std::inner_product(column.begin(), column.end(), column.begin(), 0.0) / n - mean * mean;
}

Scores::Scores(const std::vector<Term>& terms, const Sample& sample, const Player& mean)
    : points(sample.size(), 0.0), net(sample.size(), 0.0) {
  for (const Term& term : terms) {
    const DrawColumn column = term.of(sample);
    const double centre = term.in(mean);
    for (std::size_t i = 0; i < column.size(); ++i) {
      points[i] += term.by_points * (column[i] - centre);
      net[i] += term.by_net * (column[i] - centre);
    }
  }
}

Path::Path(const std::vector<Term>& terms, const Sample& sample, const Player& mean,
           const Column& scores)
    : terms_(terms), mean_(mean) {
  const double variance = variance_over(scores);
  const double centre =
      std::accumulate(scores.begin(), scores.end(), 0.0) / static_cast<double>(scores.size());
  for (const Term& term : terms) {
    const DrawColumn column = term.of(sample);
    double sum = 0;
    for (std::size_t i = 0; i < scores.size(); ++i) sum += column[i] * (scores[i] - centre);
    const double slope = variance > 0 ? sum / static_cast<double>(scores.size()) / variance : 0;
    slope_.push_back(slope);
  }
}

Player Path::at(double score) const {
  Player player = mean_;
  for (std::size_t t = 0; t < terms_.size(); ++t) {
    double& value = terms_[t].in(player);
    value = std::clamp(value + slope_[t] * score, 0.0, 1.0);
  }
  return player;
}

std::vector<Column> axes_aside(const std::vector<Term>& terms, const Sample& sample,
                               const Player& mean, const Column& net, std::size_t most) {
  std::map<std::size_t, Column> families;
  for (const Term& term : terms) {
    Column& score = families[term.family];
    score.resize(net.size());
    const DrawColumn column = term.of(sample);
    const double centre = term.in(mean);
    for (std::size_t i = 0; i < net.size(); ++i) score[i] += term.by_net * (column[i] - centre);
  }
  const auto rows = static_cast<Eigen::Index>(net.size());
  const auto count = static_cast<Eigen::Index>(families.size());
  Eigen::MatrixXd scores(rows, count);
  Eigen::Index at = 0;
  for (const auto& [family, score] : families)
    scores.col(at++) = Eigen::Map<const Eigen::VectorXd>(score.data(), rows);
  Eigen::VectorXd whole = Eigen::Map<const Eigen::VectorXd>(net.data(), rows);
  whole.array() -= whole.mean();
  scores.rowwise() -= scores.colwise().mean().eval();
  scores -= whole * (whole.transpose() * scores) / whole.squaredNorm();
  const Eigen::SelfAdjointEigenSolver<Eigen::MatrixXd> axes(scores.transpose() * scores /
                                                            static_cast<double>(rows));
  std::vector<Column> out;
  for (Eigen::Index k = count - 1; k >= 0 && out.size() < most; --k) {
    const double variance = axes.eigenvalues()(k);
    if (variance <= 1e-12) break;
    Eigen::VectorXd along = axes.eigenvectors().col(k);
    // Which way an eigenvector points is left to rounding; points bend otherwise to its other side.
    Eigen::Index most_of_it = 0;
    along.cwiseAbs().maxCoeff(&most_of_it);
    if (along(most_of_it) < 0) along = -along;
    const Eigen::VectorXd axis = scores * along / std::sqrt(variance);
    out.emplace_back(axis.data(), axis.data() + axis.size());
  }
  return out;
}

Column twisted(const Column& u, const Column& t) {
  const auto n = static_cast<Eigen::Index>(t.size());
  const Eigen::Map<const Eigen::ArrayXd> scores(t.data(), n);
  Eigen::MatrixXd powers(n, 4);
  powers.col(0).setOnes();
  for (Eigen::Index k = 1; k < powers.cols(); ++k)
    powers.col(k) = powers.col(k - 1).array() * scores;
  const Eigen::VectorXd whole = Eigen::Map<const Eigen::ArrayXd>(u.data(), n) * scores;
  const Eigen::VectorXd rest = whole - powers * powers.householderQr().solve(whole);
  return {rest.begin(), rest.end()};
}

}  // namespace callfit::ask
